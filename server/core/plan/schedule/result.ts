/** A day that was found, in the words of `schedule-model.ts`. */
import { endPoint, startPoint } from '../../timeline/net';
import { HEATING_UP_MINUTES, STAYS_HOT_MINUTES } from '../constants';
import type { BakeDay } from '../model';
import { buildFor } from '../builds';
import type { DayStep, Heating, OvenLoad, ScheduledBatch, ScheduledBuild } from '../schedule-model';
import type { DayWork } from '../work';
import { assignPeople } from './people';
import type { Placement } from './place';
import type { Day } from './search';
import type { SharedBuild } from './share';

const MS_PER_MINUTE = 60_000;

/** Batches, ovens and builds, everybody's hands given out. Batches without a placement have no steps. */
export interface DayParts {
  readonly batches: readonly ScheduledBatch[];
  readonly ovenLoads: readonly OvenLoad[];
  readonly heatings: readonly Heating[];
  readonly builds: readonly ScheduledBuild[];
}

export function partsOfDay(found: Day, day: BakeDay, work: DayWork, shared: readonly SharedBuild[], readyMs: number): DayParts {
  const replaced = new Set(shared.flatMap(({ replaces }) => replaces.map(({ batch, part }) => `${batch} ${part}`)));
  const byBatch = new Map(found.placements.map((placement) => [placement.job.index, placement]));
  const stepsOf = work.batches.map((_, index) => {
    const placement = byBatch.get(index);
    return placement ? stepsIn(placement, day, (part) => replaced.has(`${index} ${part}`)) : [];
  });
  // Hands are given out over the whole day, builds included.
  const handed = stepsOf.flatMap((steps, batch) => steps.filter(({ handsOn }) => handsOn).map((step) => ({ step, batch })));
  const works = [...handed.map(({ step }) => step), ...shared.map(({ startMs, builtMs }) => ({ startMs, endMs: builtMs }))];
  const who = assignPeople(works, day.hands, [...handed.map(({ batch }) => batch), ...shared.map((_, index) => -1 - index)]);
  const personOf = new Map(handed.map(({ step }, index) => [step, who[index]]));

  const batches = work.batches.map((batch, index): ScheduledBatch => {
    const steps = (stepsOf[index] ?? []).map((step): DayStep => ({ ...step, person: personOf.get(step) }));
    const { order, label, pieces, noun, doughGrams, factor, formula } = batch;
    return {
      order, label, pieces, noun, doughGrams, factor, formula: formula.name, steps,
      startMs: steps.reduce((least, { startMs }) => Math.min(least, startMs), byBatch.has(index) ? Infinity : readyMs),
      readyMs: byBatch.get(index)?.doneMs ?? readyMs,
      takenMs: formula.parts.map((_, part) => takenAt(byBatch.get(index), part)),
    };
  });
  const ovenLoads = loadsOf(found, day, work);
  const builds = shared.map((build, index): ScheduledBuild => {
    const { name, totalGrams, keepGrams, lines, portions } = buildFor(build.portions, work.batches);
    return {
      build: build.build, name, totalGrams, keepGrams, startMs: build.startMs, firstMs: build.firstMs, lastMs: build.lastMs,
      person: who[handed.length + index],
      lines: lines.map((line) => ({ name: line.name, key: line.key, grams: line.grams })),
      portions,
    };
  });
  return { batches, ovenLoads, heatings: heatingsOf(ovenLoads, found), builds: builds.sort((a, b) => a.startMs - b.startMs) };
}

/** When a part goes in: the first step that waits for it to be ready. */
function takenAt(placement: Placement | undefined, part: number): number | null {
  if (!placement) return null;
  const { timesMs, job: { of: { network } } } = placement;
  const ready = network.nodes.findIndex(({ sequence, work }) => sequence === part && work === undefined);
  const times = network.links.flatMap(({ before, after, lagMs }) => (before === ready ? [(timesMs[startPoint(after)] ?? 0) + lagMs] : []));
  return times.length === 0 ? null : Math.min(...times);
}

function stepsIn({ job, timesMs, chambers }: Placement, day: BakeDay, isShared: (part: number) => boolean): readonly DayStep[] {
  const { of: { network, loadOf, bakes, chills, mixes }, batch } = job;
  const at = (point: number): number => timesMs[point] ?? 0;
  const within = (node: number, first: number, last: number): boolean =>
    at(startPoint(node)) >= at(startPoint(first)) && at(endPoint(node)) <= at(endPoint(last));
  const takenBy = (node: number): DayStep['taken'] => {
    const load = loadOf[node];
    const work = network.nodes[node]?.work;
    const bake = bakes.findIndex((stay) => stay.load === load && work?.kind === 'bake' && within(node, stay.first, stay.last));
    const chamber = bake < 0 ? undefined : chambers[bake];
    if (chamber !== undefined) return { kind: 'oven', name: day.chambers[chamber]?.name ?? '' };
    if (chills.some(({ first, last }) => node >= first && node <= last && within(node, first, last)) && day.fridges.length > 0) return { kind: 'fridge', name: day.fridges[0]?.name ?? '' };
    return mixes.includes(node) && day.mixers.length > 0 ? { kind: 'mixer', name: day.mixers[0]?.name ?? '' } : undefined;
  };
  const steps = network.nodes.flatMap(({ work, length, sequence }, node): readonly DayStep[] => {
    // The oven is heated for all that bakes in it.
    if (!work || (work.kind === 'preheat' && chambers.some((chamber) => chamber !== undefined)) || (sequence !== undefined && isShared(sequence))) return [];
    const [startMs, endMs] = [at(startPoint(node)), at(endPoint(node))];
    const load = loadOf[node];
    return [{
      ...work, startMs, endMs, earliestStartMs: startMs, latestStartMs: startMs,
      lowMinutes: length.lowMs / MS_PER_MINUTE, highMinutes: length.highMs / MS_PER_MINUTE,
      id: load === undefined || batch.loads.length < 2 ? work.id : `${work.id}/load-${load + 1}`,
      load, pieces: load === undefined ? batch.pieces : (batch.loads[load]?.pieces ?? null), taken: takenBy(node), person: undefined,
    }];
  });
  return steps.sort((a, b) => a.startMs - b.startMs || a.endMs - b.endMs);
}

function loadsOf({ placements }: Day, day: BakeDay, { batches }: DayWork): readonly OvenLoad[] {
  const uses = placements.flatMap(({ job, taking }) => taking.oven.map((use, index) => ({ use, job, stay: job.bakes[index]?.stay })));
  const rounds = new Map<string, typeof uses>();
  for (const each of uses) {
    const key = `${each.use.chamber} ${each.use.startMs}`;
    rounds.set(key, [...(rounds.get(key) ?? []), each]);
  }
  return [...rounds.values()].map((together): OvenLoad => {
    const heats = together.flatMap(({ use }) => use.stages[0]?.celsius ?? []);
    const lasts = together.flatMap(({ use }) => use.stages.at(-1)?.celsius ?? []);
    return {
      oven: day.chambers[together[0]?.use.chamber ?? 0]?.name ?? '',
      startMs: Math.min(...together.map(({ use }) => use.startMs)),
      endMs: Math.max(...together.map(({ use }) => use.endMs)),
      what: together.map(({ use, job, stay }) => ({
        batch: job.index, load: stay?.load ?? 0, formula: job.batch.formula.name, noun: batches[job.index]?.noun ?? '',
        pieces: stay?.load === undefined ? job.batch.pieces : (job.batch.loads[stay.load]?.pieces ?? null),
        startMs: use.startMs, endMs: use.endMs,
      })),
      startCelsius: heats.length === 0 ? null : Math.max(...heats),
      endCelsius: lasts.length === 0 ? null : Math.max(...lasts),
      filled: together.reduce((sum, { use }) => sum + use.amount, 0),
    };
  }).sort((a, b) => day.chambers.findIndex(({ name }) => name === a.oven) - day.chambers.findIndex(({ name }) => name === b.oven) || a.startMs - b.startMs);
}

/** An oven is heated before its first load, and again after standing empty for long. */
function heatingsOf(loads: readonly OvenLoad[], { placements }: Day): readonly Heating[] {
  return loads.flatMap((load, index): readonly Heating[] => {
    const before = loads[index - 1];
    if (before && before.oven === load.oven && load.startMs - before.endMs <= STAYS_HOT_MINUTES.value * MS_PER_MINUTE) return [];
    // Each formula of the load has its own preheat, that somebody can switch on in time: the earliest of them.
    const heats = load.what.flatMap(({ batch, load: of }) => {
      const placement = placements.find(({ job }) => job.index === batch);
      if (!placement) return [];
      const { of: { preheats, loadOf, network } } = placement.job;
      return preheats.filter((node) => loadOf[node] === of || loadOf[node] === undefined)
        .map((node) => ({ startMs: placement.timesMs[startPoint(node)] ?? 0, celsius: network.nodes[node]?.work?.ambientCelsius ?? null }))
        .filter(({ startMs }) => startMs < load.startMs);
    });
    const celsius = heats.flatMap((heat) => heat.celsius ?? []);
    return [{
      oven: load.oven,
      startMs: heats.length === 0 ? load.startMs - HEATING_UP_MINUTES.value * MS_PER_MINUTE : Math.min(...heats.map(({ startMs }) => startMs)),
      endMs: load.startMs,
      celsius: celsius.length === 0 ? load.startCelsius : Math.max(...celsius),
    }];
  });
}
