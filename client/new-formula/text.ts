/** The text of a new formula. All in shares, so that its `makes` line alone sets the size. */
import type { Kind, Leaven } from './kinds';
import type { Size } from './size';

/** Over so much dough, g, hands give way to a mixer. */
const MOST_BY_HAND_GRAMS = 5000;
/** Narrowest first column of a block, as the formatter lays it out. */
const LEAST_COLUMN = 10;

type Row = readonly [first: string, second: string];

/** A formula of a kind, a size and a leaven: laid out, without a finding, and of the weight that was asked for. */
export function newFormulaText(kind: Kind, size: Size, leaven: Leaven): string {
  return [
    // The head comes first: a text without a file is called by its first line.
    block(`formula "${kind.name}"`, [
      ['makes', `${size.pieces} ${size.noun} of ${size.weight}`],
      ['style', kind.style],
      ['room', '22 C'],
      ...(leaven === 'levain' ? [['fridge', '4 C'] as const] : []),
      ['loses', `${kind.ovenLossPct} % in the oven`],
    ], 'For another size change the next line: every weight follows it.'),
    ...preferment(leaven),
    block(`total formula at ${kind.doughCelsius} C`, [
      ...kind.ingredients.map(([pct, name]): Row => [`${pct} %`, name]),
      ...leavening(kind, leaven),
    ], 'Each % is a share of all the flour.'),
    block('steps', [...rising(kind, size, leaven), ...baking(kind, size)]),
  ].join('\n');
}

function preferment(leaven: Leaven): readonly string[] {
  switch (leaven) {
    case 'levain':
      return [block('levain', [['100 %', 'bread flour'], ['100 %', 'water at 28 C'], ['20 %', 'starter'], ['ripen', '6 to 8 h at 25 C']])];
    case 'poolish':
      return [block('poolish', [['100 %', 'bread flour'], ['100 %', 'water at 20 C'], ['0.1 %', 'instant yeast'], ['ripen', '12 to 14 h at 21 C']])];
    case 'yeast':
      return [];
  }
}

function leavening({ yeastPct, yeastWithPoolishPct }: Kind, leaven: Leaven): readonly Row[] {
  switch (leaven) {
    case 'levain': return [['20 %', 'of flour in levain']];
    case 'poolish': return [[`${yeastWithPoolishPct} %`, 'instant yeast'], ['20 %', 'of flour in poolish']];
    case 'yeast': return [[`${yeastPct} %`, 'instant yeast']];
  }
}

/** From the mixer to the oven. */
function rising({ id }: Kind, { pieces, pieceGrams }: Size, leaven: Leaven): readonly Row[] {
  const bench = `${benchMinutes(pieces)} min`;
  const sours = leaven === 'levain';
  const celsius = id === 'hearth' || id === 'flatbread' ? 24 : 26;
  const mix = pieces * pieceGrams > MOST_BY_HAND_GRAMS ? '8 min, by mixer' : '10 min, by hand';
  const bulk = sours ? '4 h' : leaven === 'poolish' ? '1 h 45 min' : '2 h';
  const begin: readonly Row[] = [
    ['mix', mix],
    ['bulk', `${bulk} at ${celsius} C`],
    ...(id === 'hearth' ? [['  fold', `every 30 min, ${sours ? 3 : 2} times`] as const] : [['  fold', 'at 45 min'] as const]),
    ...(pieces > 1 ? [['divide', bench] as const] : []),
  ];
  switch (id) {
    case 'hearth':
      return [...begin, ['shape', bench], ...(sours ? [['retard', '10 to 12 h at 4 C'] as const] : [['proof', '60 to 75 min at 24 C'] as const])];
    case 'flatbread':
      return [...begin, ['rest', '20 min'], ['shape', bench]];
    case 'tin':
    case 'rolls':
    case 'sweet':
      return [...begin, ['shape', bench], ['proof', `${sours ? '2 h to 2 h 30 min' : '60 to 75 min'} at 26 C`]];
  }
}

/** Heat goes by the weight of a piece: about 1.4 min times the root of its grams, a habit of bakers. */
function baking({ id, ovenCelsius }: Kind, { pieceGrams }: Size): readonly Row[] {
  const minutes = Math.round(1.4 * Math.sqrt(pieceGrams));
  const at = `at ${ovenCelsius} C`;
  switch (id) {
    case 'hearth': {
      const underLid = Math.round(minutes * 0.45);
      return [
        ['preheat', `45 min ${at}`],
        ['score', '2 min'],
        ['bake', `${underLid} min ${at}, lid on`],
        ['bake', `${minutes - underLid} min at ${ovenCelsius - 20} C, lid off, until core 97 C`],
        ['cool', pieceGrams > 1200 ? '3 h' : '2 h'],
      ];
    }
    case 'tin':
      return [['preheat', `30 min ${at}`], ['bake', `${minutes} min ${at}, until core 95 C`], ['cool', pieceGrams > 1200 ? '3 h' : '2 h']];
    case 'rolls':
    case 'sweet':
      return [['preheat', `30 min ${at}`], ['bake', `${minutes} to ${minutes + 2} min ${at}, until core 90 C`], ['cool', pieceGrams > 200 ? '1 h' : '30 min']];
    case 'flatbread':
      return [['preheat', `45 min ${at}`], ['bake', `${Math.max(4, Math.round(minutes * 0.4))} min ${at}`], ['serve', '5 min']];
  }
}

/** What dividing or shaping so many pieces takes: three quarters of a minute each, in steps of five, an hour at the most. */
function benchMinutes(pieces: number): number {
  return Math.min(60, Math.ceil((pieces * 0.75) / 5) * 5);
}

/** A block as the formatter lays it out: the second column at one place. A comment stands under its head. */
function block(head: string, rows: readonly Row[], comment?: string): string {
  const column = Math.max(LEAST_COLUMN, ...rows.map(([first]) => first.length + 1));
  const said = comment === undefined ? '' : `  # ${comment}\n`;
  return `${head}\n${said}${rows.map(([first, second]) => `  ${first.padEnd(column)}${second}\n`).join('')}`;
}
