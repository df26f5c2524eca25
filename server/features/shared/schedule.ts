/**
 * When a formula is begun and ready, as far as somebody says so: a plan that bakes it, else the baker in the editor. Lens, hover,
 * findings and preview all ask here, so that they agree.
 */
import type { Place, ResolvedFormula } from '../../core/formula/model';
import { READY_EARLY_HOURS } from '../../core/plan/constants';
import type { BakeDay, Order } from '../../core/plan/model';
import type { DayRequest } from '../../core/plan/schedule-model';
import { timesOf } from '../../core/plan/times';
import { formatInstant, parseLocalInstant } from '../../core/timeline/clock';
import type { HoursOff, Timeline, TimelineRequest } from '../../core/timeline/model';
import type { Settings } from '../../core/settings/settings';
import type { ChosenTime, PlacedSection, ProjectFile } from '../../project/file';
import { timelineFor } from '../../project/timelines';

const MS_PER_HOUR = 3_600_000;
/** A timeline may be done so much before the time that is asked by itself, so that steps of it leave no gap. */
const EARLY_STEP_HOURS = 2;

export interface Scheduled {
  readonly request: TimelineRequest;
  readonly timeline: Timeline;
  /** The plan that says the time; undefined where the baker chose it. */
  readonly by: PlanTime | undefined;
}

/** An order of a plan, by itself: what else is baked that day is not looked at. */
export interface PlanTime {
  readonly plan: PlacedSection;
  readonly day: BakeDay;
  readonly order: Order;
  /** The line of the plan that says the time. */
  readonly place: Place;
}

/** The timeline of a formula or dish by the time that is said for it; undefined when nobody says one or it has no steps. */
export function scheduleOf(file: ProjectFile, { section, analysis: { formula } }: PlacedSection): Scheduled | undefined {
  if (formula === undefined) return undefined;
  // An analysis is worked out when it is asked for: of the other formulas nothing is.
  const planned = plansIn(file)
    .filter(plan => plan.analysis.day?.orders.some(order => isFor(order, plan, section)) === true)
    .flatMap(plan => ordersOf(file, plan).filter(({ by: { order } }) => isFor(order, plan, section)))[0];
  if (planned !== undefined) return plannedSchedule(formula, planned);
  const chosen = chosenFor(file, section.name);
  return chosen && scheduled(formula, requestIn(file, chosen.zone, chosen.anchor), undefined);
}

/** Whether anybody may say a time for a section. */
export function mayBeScheduled(file: ProjectFile, { kind }: PlacedSection['section']): boolean {
  return kind === 'plan' || file.chosenTimes.length > 0 || plansIn(file).length > 0;
}

const plans = new WeakMap<ProjectFile, readonly PlacedSection[]>();

/** Every section of a file asks for its plans. */
function plansIn(file: ProjectFile): readonly PlacedSection[] {
  let known = plans.get(file);
  if (known === undefined) plans.set(file, (known = file.sections.filter(({ section }) => section.kind === 'plan')));
  return known;
}

/** The timelines of a plan's orders, each by itself; those without a time or steps are left out. */
export function orderSchedules(file: ProjectFile, plan: PlacedSection): readonly (Scheduled & { readonly by: PlanTime })[] {
  return ordersOf(file, plan).flatMap(({ request, by }) => {
    const found = by.order.formula && plannedSchedule(by.order.formula, { request, by });
    return found === undefined ? [] : [{ ...found, by }];
  });
}

/** An order may be done some hours before its time, as on a bake day; only when none of them will do, it cannot be done. */
function plannedSchedule(formula: ResolvedFormula, { request, by }: { readonly request: TimelineRequest; readonly by: PlanTime }): Scheduled | undefined {
  const wanted = scheduled(formula, request, by);
  if (wanted?.timeline.kind !== 'conflict' || request.anchor.kind !== 'ready') return wanted;
  for (let early = EARLY_STEP_HOURS; early <= READY_EARLY_HOURS.most.value; early += EARLY_STEP_HOURS) {
    const earlier = { ...request, anchor: { ...request.anchor, epochMs: request.anchor.epochMs - early * MS_PER_HOUR } };
    const found = scheduled(formula, earlier, by);
    if (found?.timeline.kind === 'placed') return found;
  }
  return wanted;
}

function scheduled(formula: ResolvedFormula, request: TimelineRequest, by: PlanTime | undefined): Scheduled | undefined {
  const timeline = timelineFor(formula, request);
  return timeline.kind === 'empty' ? undefined : { request, timeline, by };
}

/** What a plan asks for each of its orders; nothing where it says no time that can be. */
function ordersOf(file: ProjectFile, plan: PlacedSection): readonly { readonly request: TimelineRequest; readonly by: PlanTime }[] {
  const { day } = plan.analysis;
  const times = day && timesOf(day, file.zone);
  if (day?.anchor === undefined || times?.kind !== 'times') return [];
  const { anchor, zone, readyMs } = times.times;
  const place = day.anchor.place;
  return day.orders.map((order, index) => {
    const ready = readyMs[index];
    return {
      request: {
        zone, anchor: ready === undefined ? anchor : { kind: 'ready', epochMs: ready },
        ...conditionsOf([...day.hoursOff.map(({ place: _, ...hours }) => hours), ...hoursIn(file.settings)], day.room?.celsius ?? file.settings.roomTodayCelsius),
      },
      by: { plan, day, order, place: order.ready?.place ?? place },
    };
  });
}

function isFor({ name }: Order, plan: PlacedSection, section: PlacedSection['section']): boolean {
  return plan.environment.formulas.get(name.toLowerCase()) === section;
}

/** What the baker chose for a formula. */
export function chosenFor({ chosenTimes }: ProjectFile, formula: string): ChosenTime | undefined {
  return chosenTimes.find(time => time.formula === formula);
}

/**
 * What is asked for a time on the clock of a zone, with the hours off and the room of the settings. The zone of a settings
 * file wins over the editor's, and keeps the hour on the clock.
 */
export function requestIn(file: ProjectFile, zone: string, { kind, epochMs, local }: ChosenTime['anchor']): TimelineRequest {
  const own = zoneIn(file, zone);
  const day = conditionsOf(hoursIn(file.settings), file.settings.roomTodayCelsius);
  if (own === zone) return { zone, anchor: { kind, epochMs }, ...day };
  const instant = local === undefined ? undefined : parseLocalInstant(local, own);
  return { zone: own, anchor: { kind, epochMs: instant?.kind === 'instant' ? instant.epochMs : epochMs }, ...day };
}

/** The zone of the settings file, or the one that the editor has. */
export function zoneIn({ settingsFile }: ProjectFile, zone: string): string {
  return settingsFile?.settings.zone ?? zone;
}

/** When nobody works, by the settings. */
export function hoursIn({ asleep = [], away = [] }: Settings): readonly HoursOff[] {
  return [...asleep, ...away];
}

function conditionsOf(hoursOff: readonly HoursOff[], roomCelsius: number | undefined): Pick<TimelineRequest, 'hoursOff' | 'conditions'> {
  return { ...(hoursOff.length > 0 && { hoursOff }), ...(roomCelsius !== undefined && { conditions: { roomCelsius } }) };
}

/** What is asked for a whole plan, beside what it says itself. */
export function dayRequest(file: ProjectFile): DayRequest {
  return { zone: file.zone, ...conditionsOf(hoursIn(file.settings), file.settings.roomTodayCelsius) };
}

/** `Begin Fri 17:20, ready Sat 08:00`; for a conflict, what cannot be. */
export function scheduleWords({ request, timeline }: Pick<Scheduled, 'request' | 'timeline'>): string {
  switch (timeline.kind) {
    case 'placed':
      return `Begin ${dayAndTime(timeline.startMs, timeline.zone)}, ready ${dayAndTime(timeline.readyMs, timeline.zone)}`;
    case 'empty':
      return 'No steps to place yet';
    case 'conflict':
      return `Cannot be ${request.anchor.kind === 'ready' ? 'ready' : 'begun'} ${dayAndTime(request.anchor.epochMs, request.zone)}`;
  }
}

/** `Fri 17:20` */
export function dayAndTime(epochMs: number, zone: string): string {
  const { weekday, time } = formatInstant(epochMs, zone);
  return `${weekday} ${time}`;
}
