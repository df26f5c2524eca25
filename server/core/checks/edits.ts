/** Edits that fixes are made of. They change numbers and whole lines, and keep units, columns and comments as they are. */
import type { MassUnit, Num, VolumeUnit } from '../../../grammar';
import { GRAMS_PER } from '../units/mass';
import type { Place, Section } from '../formula/model';
import type { Fix } from './check';
import { placeOf, textAt } from './walk';
import { trimmed } from './words';

export type Edit = Fix['edits'][number];

/** Decimals that keep a rewritten amount within what a scale shows: 1 g from 10 g up, 0.1 g below, 0.01 g below 1 g. */
function decimalsFor(unit: MassUnit | VolumeUnit | '%', value: number): number {
  switch (unit) {
    case 'g':
    case 'ml':
      return value >= 10 ? 0 : value >= 1 ? 1 : 2;
    case 'mg':
      return 0;
    case 'kg':
    case 'l':
    case 'lb':
      return 3;
    case 'oz':
    case 'fl oz':
    case 'cup':
    case 'tbsp':
    case 'tsp':
      return 2;
    case '%':
      return value >= 10 ? 1 : 2;
  }
}

/** A number in a unit, rounded to what a scale shows. */
export function written(value: number, unit: MassUnit | VolumeUnit | '%'): string {
  return trimmed(value, decimalsFor(unit, value));
}

/** The same, never less than the value: for an amount that must suffice. */
export function writtenAtLeast(value: number, unit: MassUnit | VolumeUnit | '%'): string {
  const step = 10 ** -decimalsFor(unit, value);
  // The small slack keeps 2.0000000001 from becoming 2.1.
  return written(Math.ceil(value / step - 1e-6) * step, unit);
}

/** Grams as a number in a unit: in kg, 940 g is 0.94. */
export function gramsIn(unit: MassUnit, grams: number): number {
  return grams / GRAMS_PER[unit];
}

export function replaceNumber(block: number, num: Num, newText: string): Edit {
  return { place: placeOf(block, num), newText };
}

/** The line end that the block uses. */
export function lineEnd(section: Section, block: number): string {
  return section.blocks[block]?.text.includes('\r\n') === true ? '\r\n' : '\n';
}

/** The spaces and tabs in front of an offset, back to the start of its line. */
export function indentBefore(text: string, offset: number): string {
  return /[ \t]*$/.exec(text.slice(0, offset))?.[0] ?? '';
}

/** A new line above the one that starts (after its indent) at `start`, indented like it. */
export function lineAbove(section: Section, block: number, start: number, newLine: string): Edit {
  const indent = indentBefore(section.blocks[block]?.text ?? '', start);
  return { place: { block, start, end: start }, newText: `${newLine}${lineEnd(section, block)}${indent}` };
}

/** A new line under the line that runs from `start` to `end`, indented like it. */
export function lineBelow(section: Section, block: number, start: number, end: number, newLine: string): Edit {
  const indent = indentBefore(section.blocks[block]?.text ?? '', start);
  return { place: { block, start: end, end }, newText: `${lineEnd(section, block)}${indent}${newLine}` };
}

/** Takes away a span that runs to the end of its line: with the spaces before it, or the whole line if nothing else is on it. */
export function withoutTail(section: Section, place: Place): Edit {
  const text = section.blocks[place.block]?.text ?? '';
  const start = place.start - indentBefore(text, place.start).length;
  const wholeLine = start === 0 || text[start - 1] === '\n';
  const lineBreak = wholeLine ? (/^\r?\n/.exec(text.slice(place.end))?.[0] ?? '') : '';
  return { place: { block: place.block, start, end: place.end + lineBreak.length }, newText: '' };
}

/** A temperature written in Celsius, in Fahrenheit: the same number. */
export function inFahrenheit(section: Section, place: Place): readonly Fix[] {
  const newText = textAt(section, place).replace(/C(?=[^C]*$)/i, 'F');
  return [{ title: `Write ${newText}`, certain: false, edits: [{ place, newText }] }];
}
