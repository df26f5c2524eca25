/** What must hold of any scheduled day, looked at from outside: nothing here knows how it was found. */
import { capacityOf, filledBy } from '../../../server/core/plan/capacity';
import { READY_EARLY_HOURS, RECOVERY_MINUTES, SHARED_CELSIUS } from '../../../server/core/plan/constants';
import type { BakeDay } from '../../../server/core/plan/model';
import type { ScheduledDay } from '../../../server/core/plan/schedule-model';
import { workOf } from '../../../server/core/plan/work';
import { windowsOf } from '../../../server/core/timeline/windows';

const MINUTE = 60_000;

interface Stretch {
  readonly startMs: number;
  readonly endMs: number;
  readonly amount: number;
}

/** The most of something that goes on at once. */
function most(stretches: readonly Stretch[]): number {
  return Math.max(0, ...stretches.map(({ startMs }) =>
    stretches.reduce((sum, other) => (other.startMs <= startMs && other.endMs > startMs ? sum + other.amount : sum), 0)));
}

/** Every rule that the day breaks, as a sentence. */
export function broken(schedule: ScheduledDay, day: BakeDay, readyMs: number | undefined): readonly string[] {
  const wrong: string[] = [];
  const { batches, ovenLoads, builds } = schedule;
  const say = (condition: boolean, what: string): void => {
    if (!condition) wrong.push(what);
  };
  const all = batches.flatMap((batch) => batch.steps.map((step) => ({ batch, step })));
  const off = windowsOf(day.hoursOff, schedule.zone, schedule.startMs - 86_400_000, schedule.readyMs + 86_400_000);

  const handsOn = [
    ...all.filter(({ step }) => step.handsOn).map(({ batch, step }) => ({ what: `${batch.label} ${step.id}`, startMs: step.startMs, endMs: step.endMs, person: step.person })),
    ...builds.map((build) => ({ what: build.name, startMs: build.startMs, endMs: build.startMs + 5 * MINUTE, person: build.person })),
  ];
  say(most(handsOn.map((work) => ({ ...work, amount: 1 }))) <= day.hands, 'more hands than there are');
  for (let person = 1; person <= day.hands; person++) {
    say(most(handsOn.filter((work) => work.person === person).map((work) => ({ ...work, amount: 1 }))) <= 1, `person ${person} does two things at once`);
  }
  for (const { what, startMs, endMs, person } of handsOn) {
    say(person !== undefined && person >= 1 && person <= day.hands, `${what} is nobody's`);
    say(!off.some((window) => window.startMs < endMs && window.endMs > startMs), `${what} falls into hours off`);
  }
  for (const { batch, step } of all) {
    const inside = (ms: number): boolean => off.some((window) => window.startMs < ms && window.endMs > ms);
    say(!(step.handAtStart && inside(step.startMs)), `${batch.label} ${step.id} begins in hours off`);
    say(!(step.handAtEnd && inside(step.endMs)), `${batch.label} ${step.id} ends in hours off`);
    const minutes = (step.endMs - step.startMs) / MINUTE;
    say(minutes >= step.lowMinutes - 1e-6 && minutes <= step.highMinutes + 1e-6, `${batch.label} ${step.id} takes ${minutes} min, not ${step.lowMinutes} to ${step.highMinutes}`);
  }

  const mixing = all.filter(({ step }) => step.taken?.kind === 'mixer').map(({ step }) => ({ ...step, amount: 1 }));
  if (day.mixers.length > 0) say(most(mixing) <= day.mixers.length, 'more mixing than mixers');
  if (day.fridges.length > 0) {
    const cold = all.filter(({ step }) => step.taken?.kind === 'fridge').map(({ batch, step }) => {
      const order = day.orders[batch.order]!;
      return { startMs: step.startMs, endMs: step.endMs, amount: filledBy(day.fridges, order, step.pieces ?? 1, day) ?? 0 };
    });
    say(most(cold) <= 1 + 1e-6, `the fridge is ${Math.round(100 * most(cold))} % full`);
  }

  for (const chamber of day.chambers) {
    const own = ovenLoads.filter(({ oven }) => oven === chamber.name);
    own.forEach((load, index) => {
      const next = own[index + 1];
      if (next) say(next.startMs - load.endMs >= RECOVERY_MINUTES.value * MINUTE, `${chamber.name} has ${(next.startMs - load.endMs) / MINUTE} min between two loads`);
      const filled = load.what.reduce((sum, { batch, pieces }) => {
        const room = capacityOf(chamber, day.orders[batches[batch]!.order]!, day);
        return sum + (room ? (pieces ?? 1) / room.pieces : 1);
      }, 0);
      say(filled <= 1 + 1e-6, `${chamber.name} is ${Math.round(100 * filled)} % full`);
      const heats = load.what.map(({ batch, load: of }) => all.find(({ batch: other, step }) => other === batches[batch] && step.load === of && step.kind === 'bake')!.step.ambientCelsius!);
      say(Math.max(...heats) - Math.min(...heats) <= SHARED_CELSIUS.value, `${chamber.name} has ${heats.join(' and ')} C at once`);
    });
  }

  // Every piece ordered is baked once, and every load once in an oven.
  const work = workOf(day);
  say(work.batches.length === batches.length, 'a dough is missing');
  if (day.chambers.length > 0) {
    const baked = ovenLoads.flatMap(({ what }) => what).map(({ batch, load }) => `${batch} ${load}`).sort();
    const wanted = work.batches.flatMap(({ loads }, batch) => loads.map((_, load) => `${batch} ${load}`)).sort();
    say(JSON.stringify(baked) === JSON.stringify(wanted), `loads in ovens: ${baked.join()}, wanted: ${wanted.join()}`);
  }

  for (const [index, batch] of batches.entries()) {
    const spine = batch.steps.filter(({ step, part, id, kind }) => step !== undefined && part === undefined && kind !== 'preheat' && !/^[^/]+\/[^/]+\/(?!load-)/.test(id));
    const whole = spine.filter(({ load }) => load === undefined);
    const loads = [...new Set(spine.flatMap(({ load }) => (load === undefined ? [] : [load])))];
    for (const load of loads.length === 0 ? [undefined] : loads) {
      const chain = load === undefined ? whole : [...whole, ...spine.filter((step) => step.load === load)];
      chain.forEach((step, at) => {
        const next = chain[at + 1];
        if (!next) return;
        say(next.startMs >= step.endMs, `${batch.label}: ${next.id} begins before ${step.id} ends`);
        if (step.kind !== 'cool' && step.kind !== 'freeze') say(next.startMs === step.endMs, `${batch.label}: the dough waits after ${step.id}`);
      });
    }
    for (const build of builds) {
      const portion = build.portions.find((each) => each.batch === index);
      if (!portion) continue;
      const ripen = work.batches[index]!.formula.parts[portion.part]!.steps[0]!.node.duration!;
      const mix = batch.steps.find(({ kind, part }) => kind === 'mix' && part === undefined)!;
      const minutes = (mix.startMs - build.startMs) / MINUTE - 5;
      say(minutes >= ripen.lowMinutes - 1e-6 && minutes <= ripen.highMinutes + 1e-6, `${batch.label}: the ${build.name} ripens ${minutes} min`);
    }
    if (readyMs !== undefined) {
      say(batch.readyMs <= readyMs, `${batch.label} is late`);
      say(readyMs - batch.readyMs <= READY_EARLY_HOURS.most.value * 60 * MINUTE, `${batch.label} is ready too early`);
    }
  }
  return wrong;
}
