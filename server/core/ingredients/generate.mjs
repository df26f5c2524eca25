// Writes table.ts from ingredients.csv. `node server/core/ingredients/generate.mjs` writes, `--check` exits with 1 if the
// file is not what the CSV gives. The numbers are the CSV's; what is decided here is the role of each ingredient in a
// dough, and the corrections named in CORRECTIONS. README.md says why.
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const here = import.meta.dirname;

/** The role of a row, by its group in the CSV, unless ROLE_OF names the row itself. */
const ROLE_OF_GROUP = {
  flour: 'flour',
  grain: 'inclusion',
  liquid: 'liquid',
  dairy: 'dairy',
  egg: 'egg',
  fat: 'fat',
  sweetener: 'sweetener',
  salt: 'salt',
  leavening: 'leaven',
  'cocoa-chocolate': 'inclusion',
  nut: 'inclusion',
  seed: 'inclusion',
  fruit: 'inclusion',
  vegetable: 'inclusion',
  cheese: 'inclusion',
  spice: 'spice',
  other: 'other',
};

/** Rows whose role is not that of their group. */
const ROLE_OF = {
  // Powders, flakes and meals that drink water and make no gluten-bearing base.
  absorber: `malt-flour vital-gluten corn-starch potato-starch potato-flour coconut-flour almond-flour oat-flakes oat-bran
    wheat-bran wheat-germ bread-crumbs tapioca-pearl milk-powder milk-powder-whole whey-powder cocoa-powder-unsweetened
    cocoa-powder-dutch carob-flour potato-flakes`,
  // Pastes and purées: they become part of the dough, and their water is the dough's.
  other: `hazelnut-spread peanut-butter tahini applesauce banana pumpkin-puree potato-boiled sweet-potato-boiled
    beetroot-boiled`,
  // Fresh cheeses are stirred in or filled like yogurt.
  dairy: 'cream-cheese ricotta mascarpone cottage-cheese',
  // A few grams for the taste.
  spice: 'caraway-seeds fennel-seeds orange-peel lemon-peel onion-flakes garlic coffee-instant',
  inclusion: 'caramels bacon ham anchovies',
};

/** Flours of the whole grain, as their source says; dark rye by its fibre (23.8 %). */
const WHOLE_GRAIN = `whole-wheat-flour whole-wheat-flour-soft rye-flour-dark rye-flour-whole spelt-flour oat-flour
  buckwheat-flour rice-flour-brown corn-meal corn-flour sorghum-flour`;

/** Where the table departs from the CSV. */
const CORRECTIONS = {
  // A cup of agave at 220 g would float; only the spoon is plausible for a syrup.
  agave: (extras) => delete extras.cup,
  // The source's cup and fluid ounce are rounded: a cup of water has to weigh what its eight fluid ounces do.
  water: (extras) => {
    delete extras.cup;
    delete extras.flOz;
    delete extras.measured;
    extras.density = 1;
  },
};

const SOURCE_OF = {
  'USDA National Nutrient Database for Standard Reference': 'SR28',
  'USDA FoodData Central, Foundation Foods': 'Foundation',
  'Swiss Food Composition Database (FSVO)': 'Swiss',
  'ANSES-CIQUAL French food composition table': 'CIQUAL',
};

const words = (text) => text.split(/\s+/).filter(Boolean);
const roleOfKey = new Map(Object.entries(ROLE_OF).flatMap(([role, keys]) => words(keys).map((key) => [key, role])));
const wholeGrain = new Set(words(WHOLE_GRAIN));

/** Rows of an RFC 4180 text as objects by column name. */
function readCsv(text) {
  const rows = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^,\r\n]*))(,|\r?\n|$)/g)) {
    rows.at(-1).push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end === '') break;
    if (end !== ',') rows.push([]);
  }
  const [header, ...body] = rows.filter((row) => row.length > 1);
  return body.map((row) => Object.fromEntries(header.map((name, column) => [name, row[column]])));
}

const number = (cell) => (cell === '' ? null : Number(cell));
const quote = (text) => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;

/** One row of table.ts. */
function rowOf(record) {
  const role = roleOfKey.get(record.key) ?? ROLE_OF_GROUP[record.group];
  const source = SOURCE_OF[record.source];
  if (role === undefined || source === undefined) throw new Error(`${record.key}: no role or no source`);
  const composition = [
    'water_g', 'protein_g', 'fat_g', 'saturated_g', 'carbohydrate_g', 'sugars_g', 'fibre_g', 'sodium_mg', 'alcohol_g',
  ].map((column) => number(record[column]));
  const extras = {};
  const add = (name, value) => {
    if (value !== null && value !== '') extras[name] = value;
  };
  if (wholeGrain.has(record.key)) extras.whole = true;
  if (record.carbohydrate_basis === 'available') extras.available = true;
  add('tsp', number(record.g_per_tsp));
  add('tbsp', number(record.g_per_tbsp));
  add('cup', number(record.g_per_cup));
  add('flOz', number(record.g_per_fl_oz));
  add('measured', record.measure_note);
  add('density', number(record.density_g_per_ml));
  add('each', number(record.each_g));
  add('of', record.each_of);
  add('eu', record.allergens_eu);
  add('us', record.allergens_us);
  add('check', record.allergens_check_label);
  add('note', record.notes);
  CORRECTIONS[record.key]?.(extras);
  const cell = (value) => (typeof value === 'string' ? quote(value) : value);
  const fields = Object.entries(extras).map(([name, value]) => `${name}: ${cell(value)}`);
  const head = [record.key, record.label, role, `${source} ${record.source_id}`].map(quote).join(', ');
  return `  [${head}, [${composition.map(String).join(', ')}]${fields.length > 0 ? `, { ${fields.join(', ')} }` : ''}],`;
}

function tableFrom(csv) {
  const records = readCsv(csv);
  const known = new Set(records.map(({ key }) => key));
  for (const key of [...roleOfKey.keys(), ...wholeGrain, ...Object.keys(CORRECTIONS)]) {
    if (!known.has(key)) throw new Error(`${key} is decided upon here but not in the CSV`);
  }
  return `// Written by generate.mjs from ingredients.csv: change those, not this.
import type { Role } from '../../../grammar';

/** Grams in 100 g, sodium in milligrams; null where the source has no value. */
export type CompositionCells = readonly [
  water: number | null, protein: number | null, fat: number | null, saturated: number | null, carbohydrate: number | null,
  sugars: number | null, fibre: number | null, sodiumMg: number | null, alcohol: number | null,
];

/** What only some rows have. Measures in grams, US customary; allergen classes separated by semicolons. */
export interface Extras {
  readonly whole?: true;
  readonly available?: true;
  readonly tsp?: number;
  readonly tbsp?: number;
  readonly cup?: number;
  readonly flOz?: number;
  /** How the source measured: \`cup: chopped\`. */
  readonly measured?: string;
  readonly density?: number;
  readonly each?: number;
  readonly of?: string;
  readonly eu?: string;
  readonly us?: string;
  readonly check?: string;
  readonly note?: string;
}

export type TableRow = readonly [
  key: string, label: string, role: Role, source: string, composition: CompositionCells, extras?: Extras,
];

// One ingredient a line, so that a change of the data reads as one.
export const TABLE: readonly TableRow[] = [
${records.map(rowOf).join('\n')}
];
`;
}

const target = path.join(here, 'table.ts');
const text = tableFrom(readFileSync(path.join(here, 'ingredients.csv'), 'utf8'));
if (process.argv.includes('--check')) {
  if (readFileSync(target, 'utf8') !== text) {
    console.error('table.ts is not what ingredients.csv gives: run node server/core/ingredients/generate.mjs');
    process.exitCode = 1;
  }
} else {
  writeFileSync(target, text);
}
