/** A formula as a variant of another one in reach: offered only where it bakes the very same bread, and is shorter. */
import { parse, type Block } from '../../../grammar';
import type { Edit } from '../checks/edits';
import { quotedName } from '../checks/words';
import { nameKey } from '../formula/draft';
import type { ResolvedFormula, Section } from '../formula/model';
import { resolve } from '../formula/resolve';
import { sectionsOf } from '../formula/sections';
import { sheetOf } from '../formula/sheet';
import { differenceBetween, type Difference } from '../variant/difference';
import { writtenOut } from '../variant/write-out';
import { isSettled, type Refactoring, type Scene } from './refactoring';

/** Of the formulas that it could be a variant of, those that need the fewest lines. */
const MOST_OFFERED = 3;

export function asVariantOf({ section, formula, at, env }: Scene): readonly Refactoring[] {
  const head = section.blocks[at.block]?.head.node;
  if (env?.formulas === undefined || section.variant !== undefined || head?.kind !== 'formula' || head.name === undefined || !isSettled({ section, formula })) return [];
  const own = nameKey(section.name);
  const found = [...env.formulas].flatMap(([name, other]) => {
    const base = other.kind !== 'formula' || name === own ? undefined : writtenOut(other, { catalogue: env.catalogue, formulaNamed: (wanted) => env.formulas?.get(wanted) });
    const difference = base && base.variant?.base !== section ? differenceBetween(base, section) : undefined;
    if (base === undefined || difference === undefined) return [];
    const edits = variantEdits(section, base.name, difference);
    const after = applied(section, edits);
    const lines = linesIn(after);
    return lines < linesIn(section.blocks.map(({ text }) => text).join('')) && isSame(after, formula, own, env) ? [{ name: base.name, edits, lines }] : [];
  });
  return found.sort((a, b) => a.lines - b.lines || (a.name < b.name ? -1 : 1)).slice(0, MOST_OFFERED).map(({ name, edits }): Refactoring => ({
    id: `variant-of ${nameKey(name)}`, kind: 'rewrite', title: `Write this formula as a variant of “${name}”`, edits: () => edits,
  }));
}

/** What the base says goes, and the changes come under the head. Comments that have no line any more stay as lines of the head. */
function variantEdits(section: Section, base: string, { changes, sameInHead, sameBlocks }: Difference): readonly Edit[] {
  const { text = '', lines = [], head } = section.blocks[0] ?? {};
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  const [first] = lines.filter(({ node }) => node.kind !== 'blank' && node.kind !== 'comment');
  const indent = first === undefined ? '  ' : text.slice(text.lastIndexOf('\n', first.start - 1) + 1, first.start);
  const gone = lines.filter(({ start }) => sameInHead.has(start));
  const comments = [
    ...gone.flatMap(({ comment }) => (comment === undefined ? [] : [text.slice(comment.start, comment.end)])),
    ...[...sameBlocks].sort((a, b) => a - b).flatMap((index) => commentsOf(section.blocks[index])),
  ];
  const written = [`based on  ${quotedName(base)}`, ...changes, ...comments].map((line) => `${lineEnd}${indent}${line}`).join('');
  const headEnd = head?.end ?? 0;
  return [
    { place: { block: 0, start: headEnd, end: headEnd }, newText: written },
    ...gone.map((line): Edit => {
      const start = text.lastIndexOf('\n', line.start - 1);
      return { place: { block: 0, start: start > 0 && text[start - 1] === '\r' ? start - 1 : start, end: line.end }, newText: '' };
    }),
    ...[...sameBlocks].sort((a, b) => a - b).map((block): Edit => ({ place: { block, start: 0, end: section.blocks[block]?.text.length ?? 0 }, newText: '' })),
  ];
}

function commentsOf(block: Block | undefined): readonly string[] {
  return (block?.text.match(/^[ \t]*#[^\r\n]*|[ \t]#[^\r\n]*/gm) ?? []).map((comment) => comment.trim());
}

function applied({ blocks }: Section, edits: readonly Edit[]): string {
  return blocks.map(({ text }, block) => {
    let made = text;
    for (const { place, newText } of edits.filter((edit) => edit.place.block === block).sort((a, b) => b.place.start - a.place.start || b.place.end - a.place.end)) {
      made = made.slice(0, place.start) + newText + made.slice(place.end);
    }
    return made;
  }).join('');
}

function linesIn(text: string): number {
  return text.split('\n').filter((line) => line.trim() !== '').length;
}

/** Whether the text is the very formula: part by part, gram by gram, and in its size. */
function isSame(text: string, formula: ResolvedFormula, name: string, env: NonNullable<Scene['env']>): boolean {
  const [only, second] = sectionsOf(parse(text).blocks.map(({ block }) => block));
  if (only === undefined || second !== undefined || only.section.blocks.some(({ problems }) => problems.length > 0)) return false;
  const formulas = new Map([...(env.formulas ?? []), [name, only.section] as const]);
  const written = writtenOut(only.section, { catalogue: env.catalogue, formulaNamed: (wanted) => formulas.get(wanted) });
  if (written.variant === undefined || written.variant.troubles.length > 0) return false;
  const again = resolve(written, { ...env, formulas });
  return meaning(again) === meaning(formula);
}

function meaning(formula: ResolvedFormula): string {
  const parts = [...formula.parts].sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ key, kind, lines, keepGrams, yieldGrams, desiredCelsius, steps }) => ({
    key, kind, keepGrams, yieldGrams: rounded(yieldGrams), desiredCelsius, steps: steps.length,
    lines: lines.map((line) => `${line.key} ${nameKey(line.name)} ${String(rounded(line.grams))} ${line.role} ${line.purpose ?? ''} ${String(line.celsius)} ${String(line.starterHydrationPct)}`).sort(),
  }));
  const { styles, roomCelsius, fridgeCelsius, ovenLoss, benchLoss, method } = formula;
  return JSON.stringify({
    parts, styles: styles.map(({ text }) => text), roomCelsius, fridgeCelsius, ovenLoss, benchLoss, yield: formula.yield.pieces, piece: rounded(formula.yield.pieceGrams),
    steps: method.map(({ node, children }) => `${node.step} ${String(node.duration?.lowMinutes)} ${String(children.length)}`),
    rows: sheetOf(formula).rows.map(({ key, grams }) => `${key} ${String(rounded(grams))}`).sort(),
  });
}

/** Binary dust is no difference. */
function rounded(grams: number | null): number | null {
  return grams === null ? null : Number(grams.toPrecision(10));
}
