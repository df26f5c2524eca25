// How long a bake day takes to be put on the clock, and how near to the best it comes: plans of few and of many doughs, and single
// formulas beside them. The floor is the plainest timeline there is, one formula without nights, in the same run.
import { createRequire } from 'node:module';
import { ms } from './numbers.mjs';

const ENTRY = `
  export { parse } from './grammar';
  export { sectionsOf } from './server/core/formula/sections';
  export { resolve } from './server/core/formula/resolve';
  export { builtInCatalogue } from './server/core/ingredients/catalogue';
  export { readPlan } from './server/core/plan/read';
  export { workOf } from './server/core/plan/work';
  export { scheduleSteps } from './server/core/plan/schedule/schedule';
  export { timelineOf } from './server/core/timeline/timeline';`;

const LOAF = (name, bulkHours, proof, bakeMinutes, celsius) => `formula "${name}"
  makes     10 loaves of 850 g

levain
  100 %     bread flour
  100 %     water
  20 %      starter
  ripen     6 to 10 h at 24 C

dough
  100 %     bread flour
  70 %      water
  20 %      levain
  2 %       salt

steps
  mix       10 min, by mixer
  bulk      ${bulkHours} h at 24 C
  shape     15 min
  ${proof}
  preheat   45 min at ${celsius} C
  bake      ${bakeMinutes} min at ${celsius} C
  cool      1 h
`;
const FORMULAS = [
  LOAF('Country loaf', 4, 'retard    8 to 18 h at 4 C', 40, 240),
  LOAF('Barley loaf', 3, 'retard    10 to 16 h at 4 C', 45, 230),
  LOAF('Dark rye', 2, 'proof     60 to 120 min at 26 C', 60, 200),
  LOAF('Seed loaf', 3, 'retard    8 to 14 h at 4 C', 35, 240),
  LOAF('Table bread', 2, 'proof     45 to 90 min at 26 C', 30, 220),
].join('\n');
const NAMES = ['Country loaf', 'Barley loaf', 'Dark rye', 'Seed loaf', 'Table bread'];

/** A plan of so many doughs of five formulas, with ovens and hands that can just about hold them. */
function plan(batches) {
  const ovens = Math.ceil(batches / 18);
  const each = batches / NAMES.length;
  return `plan "${batches} doughs"
  ready     2026-05-16 08:00 Europe/Lisbon
  asleep    21:30 to 02:30
${'  oven      holds 3 decks of 10 loaves\n'.repeat(ovens)}${'  mixer     holds 10 kg\n'.repeat(ovens)}  fridge    holds ${batches * 10} loaves
  hands     ${1 + 2 * ovens}
${NAMES.map((name) => `  bake      ${each} batches of "${name}"\n`).join('')}`;
}

/** Gives a table of days of its own, printed. */
export async function planning({ bundle, row }) {
  const core = createRequire(import.meta.url)(await bundle('plans', ENTRY));
  const { timelineOf, scheduleSteps, workOf } = core;
  const formula = read(core, FORMULAS).formulaNamed('country loaf');
  const anchor = { kind: 'ready', epochMs: Date.parse('2026-05-16T08:00Z') };
  const night = [{ kind: 'asleep', fromMinute: 22 * 60, toMinute: 6 * 60 }];
  const plain = median(() => timelineOf(formula, { anchor, zone: 'UTC' }));
  const against = (what, time) => row(what, ms(time), ms(plain), (time / plain).toFixed(1));
  against('timeline of one formula', plain);
  against('timeline of one formula, nights kept free', median(() => timelineOf(formula, { anchor, zone: 'UTC', hoursOff: night })));
  const tight = [{ kind: 'asleep', fromMinute: 22 * 60, toMinute: 7 * 60 + 30 }];
  const conflict = timelineOf(formula, { anchor, zone: 'UTC', hoursOff: tight });
  if (conflict.kind !== 'conflict') throw new Error('These hours should leave no room.');
  against(`no timeline, with ${conflict.waysOut.length} ways out`, median(() => timelineOf(formula, { anchor, zone: 'UTC', hoursOff: tight })));

  const table = [['doughs', 'loads', 'first day', 'its gap', 'share', 'final day', 'its gap', 'share', 'final/floor']];
  for (const batches of [5, 20, 50, 200]) {
    const { day } = read(core, `${FORMULAS}\n${plan(batches)}`);
    const work = workOf(day);
    let [first, firstMs] = [];
    const [final, finalMs] = timed(() => {
      const started = performance.now();
      for (const steps = scheduleSteps(day, { zone: 'UTC' }); ;) {
        const { done, value } = steps.next();
        if (value !== undefined && first === undefined) [first, firstMs] = [value, performance.now() - started];
        if (done) return value;
      }
    });
    const gap = (schedule) => (schedule.kind !== 'scheduled' ? [schedule.kind, ''] : [
      `${schedule.gapMinutes} min`, `${((100 * schedule.gapMinutes * 60_000) / (schedule.readyMs - schedule.startMs)).toFixed(1)} %`,
    ]);
    table.push([work.batches.length, work.batches.reduce((sum, { loads }) => sum + loads.length, 0), ms(firstMs), ...gap(first), ms(finalMs), ...gap(final), (finalMs / plain).toFixed(0)]);
  }
  const widths = table[0].map((_, column) => Math.max(...table.map((line) => String(line[column]).length)));
  return `\nBake days, looked for without a limit; a gap is to the best that any day could be, a share of the day from its first work to the last bread.
${table.map((line) => line.map((cell, column) => String(cell).padStart(widths[column])).join('   ')).join('\n')}`;
}

function read({ parse, sectionsOf, resolve, builtInCatalogue, readPlan }, text) {
  const sections = sectionsOf(parse(text).blocks.map(({ block }) => block)).map(({ section }) => section);
  const formulas = new Map(sections.filter(({ kind }) => kind === 'formula').map((section) => [section.name.toLowerCase(), section]));
  const known = new Map([...formulas].map(([name, section]) => [name, resolve(section, { catalogue: builtInCatalogue, measures: 'us', formulas })]));
  const formulaNamed = (name) => known.get(name);
  const section = sections.find(({ kind }) => kind === 'plan');
  return { formulaNamed, day: section && readPlan(section, { formulaNamed }) };
}

function timed(work) {
  const started = performance.now();
  return [work(), performance.now() - started];
}

function median(work) {
  const times = Array.from({ length: 31 }, () => timed(work)[1]).sort((a, b) => a - b);
  return times[15];
}
