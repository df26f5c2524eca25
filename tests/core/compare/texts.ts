/** Two texts compared, for tests: what is told, in short words. */
import { lineIndexOf } from '../../../server/project/lines';
import { parse } from '../../../grammar';
import { sectionsOf } from '../../../server/core/formula/sections';
import { analyseText } from '../bake';
import { compareFiles, type Change, type ComparedFile, type Fact, type SectionChanges } from '../../../server/core/compare';

export function fileOf(text: string, path = ''): ComparedFile {
  const lines = lineIndexOf(text);
  // As they are written: the section of an analysis has what a base gives to a variant behind its own blocks.
  const written = sectionsOf(parse(text).blocks.map(({ block }) => block));
  return {
    path,
    sections: analyseText(text).map((analysis, index) => {
      const { section } = written[index]!;
      return {
        section, analysis,
        lineOf: (place) => lines.positionAt(analysis.rangeOf(place.block < section.blocks.length ? place : { block: 0, start: 0, end: 0 }).start).line + 1,
      };
    }),
  };
}

export function compared(before: string, after: string): readonly SectionChanges[] {
  return compareFiles([fileOf(before)], [fileOf(after)]);
}

/** `amount dough/water: 700 g 70 % -> 720 g 72 %`, a line a change. */
export function told(sections: readonly SectionChanges[]): readonly string[] {
  return sections.flatMap(({ changes }) => changes.map(inShort));
}

export function changesIn(sections: readonly SectionChanges[], what: Change['what']): readonly Change[] {
  return sections.flatMap(({ changes }) => changes.filter((change) => change.what === what));
}

function inShort({ what, before, after }: Change): string {
  const same = before !== undefined && after !== undefined && subject(before) === subject(after);
  const name = same ? subject(before) : [before, after].map((fact) => (fact === undefined ? '–' : subject(fact))).join(' -> ');
  const [was, is] = [before, after].map((fact) => (fact === undefined ? '' : words(fact)));
  return `${what} ${name}${was === '' && is === '' ? '' : `: ${was === '' ? '–' : was} -> ${is === '' ? '–' : is}`}`;
}

function subject({ name, part }: Fact): string {
  return part === undefined || part === name ? name : `${part}/${name}`;
}

function words({ grams, pct, value, unit, text, list, severity }: Fact): string {
  const number = (each: number): string => String(Number(each.toFixed(2)));
  return [
    grams === undefined || grams === null ? '' : `${number(grams)} g`,
    pct === undefined || pct === null ? '' : `${number(pct)} %`,
    value === undefined ? '' : `${value === null ? 'unknown' : number(value)} ${unit ?? ''}`.trim(),
    severity ?? '', text ?? '', list ?? '',
  ].filter((each) => each !== '').join(' ');
}
