/** The stable JSON form of a bake day: doughs with their steps, oven loads, shared preferments, what to weigh and what to have. */
import { shoppingOf, weighingsOf } from '../core/plan/lists';
import { formatInstant } from '../core/timeline/clock';
import type { DayEntry } from './day-words';
import { stepForm } from './schedule-step-json';

/** `{"plan", "message", "facts", "ways_out"}` of a day that has no schedule; undefined for one that has, or has nothing to do. */
export function dayConflict({ day, schedule, whereOf }: DayEntry): object | undefined {
  if (schedule.kind !== 'conflict') return undefined;
  const where = (fact: Parameters<DayEntry['whereOf']>[0]): object => {
    const found = whereOf(fact);
    return { line: found?.line ?? null, ...(found?.file !== undefined && { file: found.file }) };
  };
  return {
    plan: day.name,
    message: schedule.message,
    facts: schedule.facts.map((fact) => ({ text: fact.text, ...where(fact), formula: fact.formula ?? null })),
    ways_out: schedule.waysOut.map((way) => ({ text: way.text, ...where(way), formula: way.formula ?? null, length: way.length ?? null })),
  };
}

/** A day with times, or with none where there is nothing to do. Grams are not rounded. */
export function dayForm({ day, work, schedule }: DayEntry): object {
  const shopping = shoppingOf(work);
  const toHave = {
    rows: shopping.rows.map(({ name, key, grams, cost, formulas }) => ({ name, key, grams, cost, formulas })),
    starter_g: shopping.starterGrams,
    bread: shopping.bread,
    cost: shopping.cost,
    unpriced: shopping.unpriced,
  };
  if (schedule.kind !== 'scheduled') return { name: day.name, start: null, ready: null, notes: [], batches: [], oven_loads: [], heatings: [], builds: [], weighings: [], shopping: toHave };
  const iso = (epochMs: number): string => formatInstant(epochMs, schedule.zone).iso;
  return {
    name: day.name,
    start: iso(schedule.startMs),
    ready: iso(schedule.readyMs),
    bound: iso(schedule.boundMs),
    gap_minutes: schedule.gapMinutes,
    proven: schedule.proven,
    notes: schedule.notes,
    batches: schedule.batches.map((batch, index) => ({
      label: batch.label,
      formula: batch.formula,
      pieces: batch.pieces,
      noun: batch.noun,
      dough_g: batch.doughGrams,
      factor: batch.factor,
      start: iso(batch.startMs),
      ready: iso(batch.readyMs),
      steps: batch.steps.map((step) => ({
        ...stepForm(work.batches[index]?.scaled, step, iso),
        load: step.load ?? null,
        pieces: step.pieces,
        taken: step.taken ?? null,
        person: step.person ?? null,
      })),
    })),
    oven_loads: schedule.ovenLoads.map(({ oven, startMs, endMs, what, startCelsius, endCelsius, filled }) => ({
      oven,
      start: iso(startMs),
      end: iso(endMs),
      what: what.map((part) => ({ batch: part.batch, load: part.load, formula: part.formula, pieces: part.pieces, noun: part.noun, start: iso(part.startMs), end: iso(part.endMs) })),
      start_c: startCelsius,
      end_c: endCelsius,
      filled,
    })),
    heatings: schedule.heatings.map(({ oven, startMs, endMs, celsius }) => ({ oven, start: iso(startMs), end: iso(endMs), oven_c: celsius })),
    builds: schedule.builds.map((build) => ({
      name: build.name,
      start: iso(build.startMs),
      first_use: iso(build.firstMs),
      last_use: iso(build.lastMs),
      person: build.person ?? null,
      total_g: build.totalGrams,
      keep_g: build.keepGrams,
      lines: build.lines,
      portions: build.portions,
    })),
    weighings: weighingsOf(schedule, work).map(({ timeMs, what, batch, formulas, items }) => ({
      time: iso(timeMs), what, batch: batch ?? null, formulas, items: items.map((item) => ({ ...item, purpose: item.purpose ?? null })),
    })),
    shopping: toHave,
  };
}
