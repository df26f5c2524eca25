/** A plan's section as a bake day: its lines read, its formulas found and brought to the size ordered. */
import type { BodyNode, Holding, PropertyLine, PropertyValue } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { Place, ResolvedFormula, Section } from '../formula/model';
import type { HoursOff } from '../timeline/model';
import { gramsFrom, middleOf } from '../units/mass';
import { roomTroubles } from './capacity';
import { MOST_HANDS } from './constants';
import type { BakeDay, DayTime, Held, Mixer, Order, PlanTrouble, Store } from './model';
import { orderOf } from './orders';

/** What a plan needs from elsewhere. */
export interface PlanLookup {
  /** The formula or dish of that lower-case name, resolved. */
  readonly formulaNamed: (name: string) => ResolvedFormula | undefined;
}

type Value<K extends PropertyValue['kind']> = Extract<PropertyValue, { readonly kind: K }>;

/** Everything gathered so far. */
interface Scene {
  readonly lookup: PlanLookup;
  anchor: DayTime | undefined;
  readonly hoursOff: (HoursOff & { readonly place: Place })[];
  room: BakeDay['room'];
  readonly chambers: Store[];
  readonly fridges: Store[];
  readonly mixers: Mixer[];
  hands: { readonly count: number; readonly place: Place } | undefined;
  pots: { readonly count: number; readonly place: Place } | undefined;
  readonly orders: Order[];
  readonly troubles: PlanTrouble[];
}

/**
 * The bake day of a plan's section. Never throws; what cannot be read, found or sized is left out and named in `troubles`.
 * A line that is written twice counts the first time, but for ovens, fridges, mixers, hours off and orders, of which there may be many.
 */
export function readPlan(section: Section, lookup: PlanLookup): BakeDay {
  const scene: Scene = {
    lookup, anchor: undefined, hoursOff: [], room: undefined, chambers: [], fridges: [], mixers: [], hands: undefined, pots: undefined,
    orders: [], troubles: [],
  };
  const lines = section.blocks.flatMap((block, index) => (block.head.node.kind === 'plan' ? block.lines.map(({ node }) => ({ node, index })) : []));
  // The date of the plan counts for the orders above it, too.
  for (const time of [true, false]) {
    for (const { node, index } of lines) {
      if (node.kind === 'property' && time === (node.value.kind === 'instant')) readLine(node, placeOf(index, node), index, scene);
    }
  }
  const place = placeOf(0, section.blocks[0]?.head.node ?? { start: 0, end: 0 });
  const { anchor, hands, pots, troubles, lookup: _, ...rest } = scene;
  const day: BakeDay = {
    ...rest, name: section.name, place, anchor, troubles,
    hands: hands?.count ?? 1, handsPlace: hands?.place, pots: pots?.count ?? null, potsPlace: pots?.place,
  };
  if (anchor === undefined && !hasLine(section, ['ready', 'start'])) troubles.push({ kind: 'no-time', place });
  if (day.orders.length === 0 && !hasLine(section, ['bake', 'make'])) troubles.push({ kind: 'no-orders', place });
  return { ...day, troubles: [...troubles, ...roomTroubles(day, hasLine(section, ['oven']))] };
}

function hasLine(section: Section, keys: readonly PropertyLine['key'][]): boolean {
  return section.blocks.some((block) => block.lines.some(({ node }: { readonly node: BodyNode }) => node.kind === 'property' && keys.includes(node.key)));
}

function readLine(node: PropertyLine, place: Place, block: number, scene: Scene): void {
  const { key, value } = node;
  switch (value.kind) {
    case 'instant':
      if (key === 'ready' || key === 'start') readTime(key, value, place, scene);
      return;
    case 'clock-range':
      if (key === 'asleep' || key === 'away') scene.hoursOff.push({ ...hoursOf(key, value), place });
      return;
    case 'temperature':
      if (key === 'room' && value.temperature.kind === 'degrees') {
        scene.room ??= { celsius: (value.temperature.lowCelsius + value.temperature.highCelsius) / 2, place };
      }
      return;
    case 'capacity':
      readCapacity(key, value, place, scene);
      return;
    case 'order':
      scene.orders.push(orderOf({ value, place, formulaPlace: placeOf(block, value.formula), dayDate: scene.anchor?.date }, scene.lookup, scene.troubles));
      return;
    default:
      return; // notes, and what could not be read
  }
}

function readTime(kind: DayTime['kind'], { date, time, zone }: Value<'instant'>, place: Place, scene: Scene): void {
  if (scene.anchor !== undefined) scene.troubles.push({ kind: 'second-time', place, first: scene.anchor.place });
  else scene.anchor = { kind, date, time, zone, place };
}

function hoursOf(kind: HoursOff['kind'], { from, to, days }: Value<'clock-range'>): HoursOff {
  const hours: HoursOff = { kind, fromMinute: minuteOf(from), toMinute: minuteOf(to) };
  return days === undefined ? hours : { ...hours, days: daysIn(days) };
}

function minuteOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours * 60 + minutes;
}

/** Each day once, in order; a range may go over the end of the week. */
function daysIn(ranges: readonly { readonly from: number; readonly to: number }[]): readonly number[] {
  const days = new Set<number>();
  for (const { from, to } of ranges) {
    for (let day = from; ; day = (day % 7) + 1) {
      days.add(day);
      if (day === to) break;
    }
  }
  return [...days].sort((a, b) => a - b);
}

// --- what there is room for -----------------------------------------------------------------------------------------

function readCapacity(key: PropertyLine['key'], value: Value<'capacity'>, place: Place, scene: Scene): void {
  switch (key) {
    case 'oven':
      scene.chambers.push(...storesOf('oven', value, place, scene.chambers, scene.troubles));
      return;
    case 'fridge':
      scene.fridges.push(...storesOf('fridge', value, place, scene.fridges, scene.troubles));
      return;
    case 'mixer': {
      const [held] = value.holds;
      if (held === undefined) return;
      const name = uniqueName(value.name?.text ?? 'mixer', scene.mixers);
      if (held.unit === undefined) {
        scene.troubles.push({ kind: 'needs-a-weight', place, name });
        return;
      }
      const grams = gramsFrom(middleOf(held.quantity), held.unit);
      if (grams <= 0) scene.troubles.push({ kind: 'odd-number', place, what: name, value: grams, why: 'none' });
      else scene.mixers.push({ name, place, grams, of: held.noun?.text.toLowerCase().includes('flour') ? 'flour' : 'dough' });
      return;
    }
    case 'hands':
      scene.hands ??= countOf('hands', value, place, scene.troubles, MOST_HANDS.value);
      return;
    case 'pots':
      scene.pots ??= countOf('pots', value, place, scene.troubles);
      return;
    default:
      return;
  }
}

/** An oven, or its decks, each heated by itself. */
function storesOf(what: 'oven' | 'fridge', { name, decks, holds }: Value<'capacity'>, place: Place, others: readonly Store[], troubles: PlanTrouble[]): readonly Store[] {
  const called = name?.text ?? what;
  const count = decks === undefined ? 1 : middleOf(decks.quantity);
  const odd = [{ value: count, whole: true }, ...holds.map((held) => ({ value: middleOf(held.quantity), whole: held.unit === undefined }))]
    .find(({ value, whole }) => value <= 0 || (whole && !Number.isInteger(value)));
  if (odd !== undefined) {
    troubles.push({ kind: 'odd-number', place, what: called, value: odd.value, why: odd.value <= 0 ? 'none' : 'not-whole' });
    return [];
  }
  if (count > MOST_HANDS.value) {
    troubles.push({ kind: 'odd-number', place, what: called, value: count, why: 'too-many' });
    return [];
  }
  const stores: Store[] = [];
  for (let deck = 1; deck <= count; deck++) {
    const own = count > 1 ? `${called} ${deck}` : called;
    stores.push({ name: uniqueName(own, [...others, ...stores]), place, holds: holds.map(heldOf) });
  }
  return stores;
}

function heldOf({ quantity, unit, noun }: Holding): Held {
  if (unit !== undefined) return { kind: 'dough', grams: gramsFrom(middleOf(quantity), unit) };
  return { kind: 'pieces', count: middleOf(quantity), noun: noun?.text };
}

function uniqueName(name: string, others: readonly { readonly name: string }[]): string {
  let unique = name;
  for (let count = 2; others.some((other) => other.name === unique); count++) unique = `${name} ${count}`;
  return unique;
}

function countOf(what: string, { holds: [held] }: Value<'capacity'>, place: Place, troubles: PlanTrouble[], most = Infinity): { readonly count: number; readonly place: Place } | undefined {
  if (held === undefined) return undefined;
  const value = middleOf(held.quantity);
  if (value >= 1 && Number.isInteger(value) && value <= most) return { count: value, place };
  troubles.push({ kind: 'odd-number', place, what, value, why: value <= 0 ? 'none' : value > most ? 'too-many' : 'not-whole' });
  return undefined;
}
