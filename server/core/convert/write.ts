/** A draft as `.bake` text, in the layout of the formatter. */
import { format } from '../../../grammar';
import { quoted, TO_DECIDE } from './lines';
import type { Draft, DraftLine, DraftPart } from './model';

/** Comments are broken at this column, so that they can be read beside the formula. */
const WIDTH = 100;
/** A word that is longer is cut: a line may only be so long. */
const LONGEST_WORD = 4000;

/** The text of drafts, one after the other, with a line end behind each line. */
export function writeDrafts(drafts: readonly Draft[]): string {
  return format(drafts.map(draftText).join('\n'));
}

function draftText({ kind, name, head, parts, method }: Draft): string {
  return [
    `${kind} ${quoted(name)}`,
    ...head.flatMap((line) => lineText(line, 1)),
    ...parts.flatMap((part) => ['', partHead(part), ...part.lines.flatMap((line) => lineText(line, 1))]),
    ...(method.length === 0 ? [] : ['', 'steps', ...method.flatMap((line) => lineText(line, 1))]),
    '',
  ].join('\n');
}

function partHead({ kind, name, comment }: DraftPart): string {
  return `${kind}${name === undefined ? '' : ` ${quoted(name)}`}${comment === undefined ? '' : `  # ${plainComment(comment)}`}`;
}

function lineText({ bake, comment, decide, children = [] }: DraftLine, depth: number): readonly string[] {
  const margin = '  '.repeat(depth);
  const words = decide === undefined ? plainComment(comment ?? '') : `${TO_DECIDE} ${decide}${comment === undefined ? '' : ` (${comment})`}`;
  const below = children.flatMap((child) => lineText(child, depth + 1));
  if (bake === undefined) return [...(words === '' ? [] : commentLines(words, margin)), ...below];
  return [`${margin}${bake}${words === '' ? '' : `  # ${words}`}`, ...below];
}

/** A comment that begins with `accept` would silence checks. */
function plainComment(words: string): string {
  return /^accept/i.test(words) ? `- ${words}` : words;
}

function commentLines(words: string, margin: string): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ').flatMap(cutWord)) {
    if (line !== '' && margin.length + line.length + word.length + 3 > WIDTH) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].map((each, index) => `${margin}# ${index === 0 ? each : plainComment(each)}`);
}

function cutWord(word: string): readonly string[] {
  const pieces: string[] = [];
  for (let at = 0; at < word.length; at += LONGEST_WORD) pieces.push(word.slice(at, at + LONGEST_WORD));
  return pieces.length === 0 ? [word] : pieces;
}
