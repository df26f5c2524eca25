/**
 * The page of every number that the arithmetic leans on, written from the tables themselves, so that it cannot say anything
 * else than what is computed with. A number in a table that nobody gives a source for is a mistake.
 */
import * as baking from '../../server/core/baking/constants';
import * as convert from '../../server/core/convert/constants';
import * as facts from '../../server/core/facts/constants';
import * as fermentation from '../../server/core/fermentation/constants';
import { ABSORBERS } from '../../server/core/formula/absorbers';
import { SALT_PER_SODIUM } from '../../server/core/ingredients/builtin';
import { EU_EGG_GRADES, US_EGG_SIZES } from '../../server/core/ingredients/eggs';
import { PINCH_GRAMS } from '../../server/core/ingredients/weigh';
import { TIN_FACTORS } from '../../server/core/scaling/tin-factors';
import * as plan from '../../server/core/plan/constants';
import * as records from '../../server/core/records/constants';
import * as temperature from '../../server/core/temperature/constants';
import { BUILD_MINUTES, HOT_OVEN_WAITS_MINUTES, READY_EARLY_MINUTES, STEP_DEFAULTS } from '../../server/core/timeline/defaults';
import { GRAMS_PER } from '../../server/core/units/mass';
import { AUSTRALIAN_TABLESPOON_ML, IMPERIAL_PINT_ML, US_LABEL_ML, volumeToMl } from '../../server/core/units/volume';

export interface Row {
  readonly name: string;
  readonly value: string;
  readonly range: string;
  readonly unit: string;
  readonly basis: string;
  readonly source: string;
}

/** Numbers that have no source of their own: they say where the one beside them holds. */
const BESIDE: Readonly<Record<string, { readonly unit: string; readonly of: string }>> = {
  MODEL_VALID: { unit: 'C', of: 'where the growth model agrees with the published anchors to about 0.1 of the best rate' },
  YEAST_DOUBLING_CELSIUS: { unit: 'C', of: 'the temperature of YEAST_DOUBLING' },
  BAKERS_YEAST_VALID: { unit: 'C', of: 'the ten per cent a degree, good from 20 to 32 C by its source and used below with a wider range' },
  CERTAIN_CELSIUS: { unit: 'C', of: 'where UNCERTAINTY inside holds' },
  DUST: { unit: '1', of: 'what division leaves behind; no fact of baking' },
  MOST_TRIES: { unit: 'tries', of: 'how long a search may go on; no fact of baking' },
  MOST_PLACED: { unit: 'batches', of: 'how long a search may go on; no fact of baking' },
  MOST_FIRST_TRIES: { unit: 'tries', of: 'how long a search may go on; no fact of baking' },
  BEST_PH_CELSIUS: { unit: 'C', of: 'the temperature of BEST_PH' },
};

/** Of tables with several numbers, which have no room for a unit of each. */
const UNIT_OF: Readonly<Record<string, string>> = {
  SOURDOUGH_YEAST: 'C',
  SOURDOUGH_BACTERIA: 'C',
  SALT_FACTOR: '% of flour → rate',
  'SUGAR_FACTOR, ordinary': '% of flour → rate',
  'SUGAR_FACTOR, osmotolerant': '% of flour → rate',
  STUDENT_T: 'bakes less one → t',
  PREFERMENT_YEAST: 'h → % fresh yeast; C',
  EU_FACTORS: 'kJ and kcal a gram',
  US_FACTORS: 'kcal a gram',
  ATMOSPHERE: 'Pa, 1/m, 1',
  ANTOINE_WATER: 'C and mm of mercury',
};

const HABIT = 'common practice, no source';

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Up to six figures, no noughts at the end. */
export function figure(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** A number, or a table of points, as text; nothing for anything else. */
function numbersIn(value: unknown): string | undefined {
  if (typeof value === 'number') return figure(value);
  if (Array.isArray(value) && value.length > 0 && value.every((each) => Array.isArray(each))) return (value as readonly (readonly number[])[]).map((point) => point.map(figure).join(' → ')).join('; ');
  if (isFields(value)) {
    const parts = Object.entries(value).flatMap(([key, inside]) => {
      const text = numbersIn(inside);
      return text === undefined ? [] : [`${key} ${text}`];
    });
    return parts.length === 0 ? undefined : parts.join(', ');
  }
  return undefined;
}

/** The rows of one exported table, however deep its constants lie in it. */
function rowsOf(name: string, value: unknown): readonly Row[] {
  if (!isFields(value) || !('source' in value)) {
    if (isFields(value) && !(name in BESIDE)) return Object.entries(value).flatMap(([key, inside]) => rowsOf(`${name}, ${key}`, inside));
    const numbers = numbersIn(value);
    if (numbers === undefined) return [];
    const beside = BESIDE[name];
    if (beside === undefined) throw new Error(`${name} has a number and no source`);
    return [{ name, value: numbers, range: '', unit: beside.unit, basis: '', source: beside.of }];
  }
  const { source, basis, unit, low, high, value: only, what, ...others } = value;
  const number = typeof only === 'number' ? figure(only) : numbersIn(others);
  // Advice that has a source and no number in it is no constant.
  if (number === undefined) return [];
  if (typeof source !== 'string' || source === '') throw new Error(`${name} has no source`);
  return [{
    name,
    value: number,
    range: typeof low === 'number' || typeof high === 'number' ? `${typeof low === 'number' ? figure(low) : number} to ${typeof high === 'number' ? figure(high) : number}` : '',
    unit: typeof unit === 'string' ? unit : (UNIT_OF[name] ?? ''),
    basis: typeof basis === 'string' ? basis : source === HABIT ? HABIT : '',
    // What is a habit has no source to name: what the number is of says more.
    source: source === HABIT && typeof what === 'string' ? what : source,
  }];
}

function tableOf(module: Fields): readonly Row[] {
  return Object.entries(module).filter(([, value]) => typeof value !== 'function' && !(Array.isArray(value) && value.every((each) => typeof each === 'string')))
    .flatMap(([name, value]) => rowsOf(name, value));
}

const DEFINED = 'derived';
const unitRow = (name: string, value: number, unit: string, source: string, basis = DEFINED): Row => ({ name, value: figure(value), range: '', unit, basis, source });

const UNITS: readonly Row[] = [
  unitRow('ounce', GRAMS_PER.oz, 'g', 'a sixteenth of the international avoirdupois pound'),
  unitRow('pound', GRAMS_PER.lb, 'g', 'international avoirdupois pound, by definition'),
  ...(['tsp', 'tbsp', 'cup', 'fl oz'] as const).map((unit) => unitRow(`${unit}, US`, volumeToMl(unit, 'us'), 'ml', 'US gallon of 231 cubic inches, by definition; inch of 2.54 cm')),
  ...(['tsp', 'tbsp', 'cup'] as const).map((unit) => unitRow(`${unit}, metric`, volumeToMl(unit, 'metric'), 'ml', 'a published comparison of cooking measures', 'read')),
  ...(['tsp', 'tbsp'] as const).map((unit) => unitRow(`${unit}, imperial`, volumeToMl(unit, 'imperial'), 'ml', 'British measuring spoons of the last decades', 'common practice, no source')),
  unitRow('cup, imperial', volumeToMl('cup', 'imperial'), 'ml', 'half an imperial pint'),
  unitRow('fl oz, imperial and metric', volumeToMl('fl oz', 'imperial'), 'ml', 'a twentieth of the imperial pint'),
  unitRow('pint, imperial', IMPERIAL_PINT_ML, 'ml', 'an eighth of the imperial gallon of 4.54609 l, by definition'),
  unitRow('tbsp, Australian', AUSTRALIAN_TABLESPOON_ML, 'ml', 'four teaspoons where others take three', 'common practice, no source'),
  ...Object.entries(US_LABEL_ML).map(([unit, ml]) => unitRow(`${unit}, on a US label`, ml, 'ml', '21 CFR 101.9(b)(5)(viii)', 'read')),
  unitRow('salt for sodium, by weight', SALT_PER_SODIUM, 'g/g', 'molar masses of sodium chloride and of sodium'),
];

const PIECES: readonly Row[] = [
  ...US_EGG_SIZES.map(({ size, edibleGrams }) => unitRow(`egg, US ${size}, without its shell`, edibleGrams, 'g', 'USDA SR28 NDB 01123', 'read')),
  ...EU_EGG_GRADES.filter(({ fromGrams }) => fromGrams > 0).map(({ grade, fromGrams }) => unitRow(`egg, European ${grade}, in its shell, at least`, fromGrams, 'g', 'Regulation (EC) 589/2008', 'read')),
  unitRow('pinch', PINCH_GRAMS, 'g', 'a powder between two fingers; a habit of the trade', HABIT),
];

const LENGTHS: readonly Row[] = [
  ...Object.entries(STEP_DEFAULTS).map(([step, { minutes }]) => unitRow(step, minutes, 'min', 'where the line says no length', HABIT)),
  unitRow('putting a part together', BUILD_MINUTES, 'min', 'where its steps begin with waiting', HABIT),
  unitRow('a hot oven waits', HOT_OVEN_WAITS_MINUTES, 'min', 'beyond its preheat, at most', HABIT),
  unitRow('bread is ready early', READY_EARLY_MINUTES, 'min', 'where that leaves the night alone, at most', HABIT),
];

export const TABLES: readonly { readonly title: string; readonly file: string; readonly rows: readonly Row[] }[] = [
  { title: 'Dough temperature', file: 'temperature/constants.ts', rows: tableOf(temperature) },
  { title: 'Fermentation', file: 'fermentation/constants.ts', rows: tableOf(fermentation) },
  { title: 'Records', file: 'records/constants.ts', rows: tableOf(records) },
  { title: 'Bake day', file: 'plan/constants.ts', rows: tableOf(plan) },
  { title: 'Oven', file: 'baking/constants.ts', rows: tableOf(baking) },
  { title: 'Food facts and safety', file: 'facts/constants.ts', rows: tableOf(facts) },
  { title: 'Water that dry things bind', file: 'formula/absorbers.ts', rows: Object.entries(ABSORBERS).flatMap(([key, absorber]) => rowsOf(key, { ...absorber, unit: 'g/g' })) },
  {
    title: 'Dough for a tin',
    file: 'scaling/tin-factors.ts',
    rows: Object.values(TIN_FACTORS).flatMap(({ what, usualMlPerGram, leastMlPerGram, mostMlPerGram, runsOverMlPerGram, staysLowMlPerGram, source }) => [
      ...rowsOf(what, { value: usualMlPerGram, low: leastMlPerGram, high: mostMlPerGram, unit: 'ml/g', source }),
      ...rowsOf(`${what}, runs over below`, { value: runsOverMlPerGram, unit: 'ml/g', source: 'common practice, no source' }),
      ...rowsOf(`${what}, stays low above`, { value: staysLowMlPerGram, unit: 'ml/g', source: 'common practice, no source' }),
    ]),
  },
  { title: 'Recipes of others', file: 'convert/constants.ts', rows: tableOf(convert) },
  { title: 'Units', file: 'units', rows: UNITS },
  { title: 'Eggs and pinches', file: 'ingredients', rows: PIECES },
  { title: 'Lengths of steps', file: 'timeline/defaults.ts', rows: LENGTHS },
];

const cell = (text: string): string => text.replace(/\|/g, '\\|').replace(/\s+/g, ' ');

/** The page, in Markdown. */
export function constantsPage(): string {
  const tables = TABLES.flatMap(({ title, file, rows }) => [
    `## ${title}`, '', `From [${file}](${file}).`, '', '| what | value | range | unit | how it came here | source |', '|---|---|---|---|---|---|',
    ...rows.map((row) => `| ${[row.name, row.value, row.range, row.unit, row.basis, row.source].map(cell).join(' | ')} |`), '',
  ]);
  return [
    '# Every number and its source', '',
    'Written by `UPDATE=1 npx vitest run -c .config/vitest.config.mts tests/reference/constants.test.ts` from the tables of the code; a test fails when it is not what they say. '
      + '“How it came here” is `read` where the source itself was read, `derived` where it follows from such numbers or from a definition, and otherwise says that it is a recollection or a habit of the trade.', '',
    'Limits of the checks are in [checks/README.md](checks/README.md), composition of ingredients and their densities in [ingredients/README.md](ingredients/README.md).', '',
    ...tables,
  ].join('\n').trimEnd() + '\n';
}
