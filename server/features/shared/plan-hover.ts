/** What the lines of a plan come to: an order as doughs, loads and times, a ready time for each order, hours off on the day itself. */
import type { Place } from '../../core/formula/model';
import type { BakeDay, Order } from '../../core/plan/model';
import { workOf } from '../../core/plan/work';
import { formatInstant } from '../../core/timeline/clock';
import { windowsOf } from '../../core/timeline/windows';
import { clockRange } from '../../output/schedule-words';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { dotted, escaped, gramsOrNothing, paragraphs } from './markdown';
import { orderSchedules, scheduleWords } from './schedule';

/** The words for the line at a place of a plan; empty for a line that says nothing of the day. */
export function planLineWords(file: ProjectFile, plan: PlacedSection, line: Place): string {
  const { day } = plan.analysis;
  if (day === undefined) return '';
  const isHere = ({ place }: { readonly place: Place }): boolean => place.block === line.block && place.start === line.start;
  const order = day.orders.findIndex(isHere);
  if (order >= 0) return orderWords(file, plan, day, order);
  if (day.anchor !== undefined && isHere(day.anchor)) return timesOfOrders(file, plan);
  const hours = day.hoursOff.find(isHere);
  return hours === undefined ? '' : hoursWords(file, plan, hours);
}

function orderWords(file: ProjectFile, plan: PlacedSection, day: BakeDay, index: number): string {
  const order = day.orders[index];
  if (order === undefined) return '';
  return paragraphs(escaped(sizeWords(order)), escaped(workWords(day, index)), times(file, plan, order));
}

/** `6 loaves, 5.1 kg of dough, 1.5 times the formula` */
function sizeWords({ pieces, noun, doughGrams, factor }: Order): string {
  const dough = gramsOrNothing(doughGrams);
  return dotted([
    pieces === null ? undefined : `${pieces} ${noun}`,
    dough && `${dough} in all`,
    factor === null || Math.abs(factor - 1) < 1e-9 ? undefined : `${Math.round(factor * 100) / 100} times what is written`,
  ]);
}

/** `2 doughs, 3 oven loads of 4, 4 and 2 loaves` */
function workWords(day: BakeDay, index: number): string {
  const batches = workOf(day).batches.filter(({ order }) => order === index);
  const loads = batches.flatMap(batch => batch.loads);
  const sizes = loads.map(({ pieces }) => pieces).filter(pieces => pieces !== null);
  const last = sizes.at(-1);
  const each = sizes.length > 1 ? ` of ${sizes.slice(0, -1).join(', ')} and ${last}` : '';
  return dotted([
    batches.length > 1 ? `${batches.length} doughs` : undefined,
    loads.length === 0 ? undefined : `${loads.length} oven ${loads.length === 1 ? 'load' : 'loads'}${each}`,
  ]);
}

function times(file: ProjectFile, plan: PlacedSection, order: Order): string {
  const found = orderSchedules(file, plan).find(({ by }) => by.order === order);
  if (found === undefined) return '';
  const words = `**${escaped(scheduleWords(found))}**`;
  if (found.timeline.kind === 'conflict') return paragraphs(words, escaped(found.timeline.message));
  return paragraphs(words, ALONE);
}

/** One order is looked at without the others. */
const ALONE = 'This is one dough by itself: other doughs and oven loads may want the same hour.';

function timesOfOrders(file: ProjectFile, plan: PlacedSection): string {
  const lines = orderSchedules(file, plan).map(scheduled => `- ${escaped(scheduled.by.order.name)}: ${escaped(scheduleWords(scheduled))}`);
  return lines.length === 0 ? '' : paragraphs(lines.join('\n'), lines.length > 1 ? 'Each by itself: other doughs and oven loads may want the same hour.' : ALONE);
}

/** The hours off that lie between the first step of the plan and its last. */
function hoursWords(file: ProjectFile, plan: PlacedSection, hours: BakeDay['hoursOff'][number]): string {
  const placed = orderSchedules(file, plan).flatMap(({ timeline }) => (timeline.kind === 'placed' ? [timeline] : []));
  const [first] = placed;
  if (first === undefined) return '';
  const from = Math.min(...placed.map(({ startMs }) => startMs));
  const to = Math.max(...placed.map(({ readyMs }) => readyMs));
  const windows = windowsOf([hours], first.zone, from, to);
  if (windows.length === 0) return 'No step of this plan comes near these hours.';
  const nights = windows.map(({ startMs, endMs }) => `- ${escaped(`${formatInstant(startMs, first.zone).weekday} ${clockRange(startMs, endMs, first.zone)}`)}`);
  return paragraphs('No step that needs a hand is placed in these hours:', nights.join('\n'));
}
