/**
 * Whole recipes in the ways that people hand them on, beside the drafts that come of them. To write the drafts anew after a change, and
 * then to read the difference: UPDATE=1 npx vitest run -c .config/vitest.config.mts tests/core/convert
 */
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { format, parse } from '../../../grammar';
import { convert, tallyOf, type Converted } from '../../../server/core/convert/convert';
import { wordsLost } from '../../../server/core/convert/kept-words';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { findingsIn } from '../bake';

const folder = path.join(import.meta.dirname, 'recipes');
const drafts = path.join(folder, 'drafts');
const sources = readdirSync(folder).filter((name) => /\.(?:txt|html|json)$/.test(name)).sort();
const read = (name: string): string => readFileSync(path.join(folder, name), 'utf8');

function drafted(name: string): Converted {
  const converted = convert(read(name), { catalogue: builtInCatalogue });
  if (converted.kind === 'nothing') throw new Error(converted.message);
  return converted;
}

/** What a draft may have an error for: amounts that the source does not say, or that nobody can weigh. */
const ORDINARY = ['needs-a-weight', 'no-size', 'no-flour'];

describe.each(sources)('%s', (name) => {
  it('is drafted as it was', () => {
    const { text } = drafted(name);
    const file = path.join(drafts, `${name}.bake`);
    if (process.env.UPDATE === '1' || !existsSync(file)) {
      mkdirSync(drafts, { recursive: true });
      writeFileSync(file, text);
    }
    expect(text).toBe(readFileSync(file, 'utf8'));
  });

  it('reads without a problem, and is laid out', () => {
    const { text } = drafted(name);
    expect(parse(text).blocks.flatMap(({ block }) => block.problems)).toEqual([]);
    expect(format(text)).toBe(text);
  });

  it('has no error but those of amounts that nobody said', () => {
    const errors = findingsIn(drafted(name).text).filter(({ finding, code }) => finding.severity === 'error' && !ORDINARY.includes(code));
    expect(errors.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  });

  it('says everything that is left to decide as a finding', () => {
    const { text } = drafted(name);
    const comments = text.split('\n').filter((line) => line.includes('# to decide: ')).length;
    expect(findingsIn(text).filter(({ code }) => code === 'to-decide')).toHaveLength(comments);
  });

  it('loses no word of a line', () => {
    const { text, drafts: made } = drafted(name);
    const lost = made.flatMap(({ outcomes }) => outcomes.flatMap((outcome) => wordsLost(outcome.text, text)));
    expect(lost.filter((word) => !['ingredients', 'method', 'notes', 'preparo', 'ingredientes', 'soft'].includes(word))).toEqual([]);
  });
});

/** Of all lines of the recipes; lower than this is a step back. */
const UNDERSTOOD_PCT = 81;

it('understands most lines', () => {
  const tally = tallyOf(sources.flatMap((name) => drafted(name).drafts));
  const percent = (100 * tally.understood) / tally.lines;
  console.info(`${tally.lines} lines of ${sources.length} recipes: ${tally.understood} understood (${percent.toFixed(1)} %), ${tally.doubtful} doubtful, ${tally.text} kept as text`);
  expect(Math.floor(percent)).toBe(UNDERSTOOD_PCT);
});
