/** The colours know every word that the language knows: each word's own example, coloured as what it is. */
import { expect, test } from 'vitest';
import { VOCABULARY, type VocabularyWord } from '../../grammar';
import { colour } from './colour';

const SCOPES: Readonly<Record<VocabularyWord['kind'], RegExp>> = {
  block: /^keyword\.control\.block$/,
  property: /^support\.type\.property$/,
  line: /^support\.(type\.property|function\.variant)$/,
  step: /^entity\.name\.function\.step$/,
  detail: /^(support\.function\.detail|keyword\.operator\.word)$/,
  unit: /^(keyword\.other\.unit\.|constant\.language\.)/,
  role: /^support\.constant\.role$/,
};

/** A head under which a line of this block is read. */
const HEADS: Readonly<Record<string, string>> = {
  formula: 'formula "A"', dish: 'dish "A"', part: 'dough', steps: 'steps', ingredient: 'ingredient "a"', record: 'record 2026-03-14', plan: 'plan "A"',
};

test.each(VOCABULARY.map((word) => [word.kind, word.label, word] as const))('%s %s', async (kind, label, { example, allowedIn }) => {
  const head = kind === 'block' ? '' : `${HEADS[allowedIn[0] ?? 'part']}\n  `;
  const pieces = (await colour(head + example)).filter(({ line }) => line === (kind === 'block' ? 0 : 1));
  const first = label.split(' ')[0]!;
  const piece = pieces.find(({ text }) => text === label) ?? pieces.find(({ text }) => text.split(' ')[0] === first);
  expect(piece, `${label} among ${pieces.map(({ text }) => text).join(' | ')}`).toBeDefined();
  expect(piece!.scopes.at(-1)).toMatch(SCOPES[kind]);
});
