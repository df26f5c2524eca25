/** The clock times of a step, a part or a whole method, in the words of a hover. Empty where nobody says a time. */
import { formatDuration, formatInstant } from '../../core/timeline/clock';
import type { Place } from '../../core/formula/model';
import type { Timeline, TimelineStep } from '../../core/timeline/model';
import { minutesRange } from '../../output/numbers';
import { clockOn, clockRange, handMoments, type Placed } from '../../output/schedule-words';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { escaped, paragraphs } from './markdown';
import { dayAndTime, scheduleOf, scheduleWords } from './schedule';

/** Less slack than this is not worth a word. */
const LEAST_SLACK_MS = 10 * 60_000;
/** More times than this of one line (folds that come round) are not listed. */
const MOST_TIMES = 8;

/** When the step of a line happens, how far it may move, who is needed, and why it is not as long as written. */
export function stepTimes(file: ProjectFile, section: PlacedSection, line: Place): string {
  const timeline = scheduleOf(file, section)?.timeline;
  if (timeline === undefined) return '';
  if (timeline.kind !== 'placed') return conflictWords(timeline);
  const own = timeline.steps.filter(({ step, place }) => step !== undefined && place.block === line.block && place.start === line.start);
  const [first] = own;
  if (first === undefined) return '';
  return own.length === 1 ? paragraphs(timeWords(timeline, first), ...detailWords(timeline, first)) : timesWords(own, timeline.zone);
}

/** When a part is put together that nobody wrote a step for. */
export function buildTimes(file: ProjectFile, section: PlacedSection, part: number): string {
  const timeline = scheduleOf(file, section)?.timeline;
  if (timeline?.kind !== 'placed') return '';
  const build = timeline.steps.find(step => step.step === undefined && step.part === part);
  return build === undefined ? '' : `${timeWords(timeline, build)}: ${escaped(build.label)}`;
}

/** The whole: begun, ready, how long, how much of it with hands at work; or why it cannot be, and what would do. */
export function wholeTimes(file: ProjectFile, section: PlacedSection): string {
  const scheduled = scheduleOf(file, section);
  if (scheduled === undefined) return '';
  const { timeline } = scheduled;
  if (timeline.kind !== 'placed') return paragraphs(`**${escaped(scheduleWords(scheduled))}**`, conflictWords(timeline));
  const { startMs, readyMs, steps, notes } = timeline;
  const handsMs = steps.filter(({ handsOn }) => handsOn).reduce((sum, step) => sum + step.endMs - step.startMs, 0);
  return paragraphs(
    `**${escaped(scheduleWords(scheduled))}**`,
    `${minutes(readyMs - startMs)} in all, hands at work for ${minutes(handsMs)} of it.`,
    ...notes.map(escaped),
  );
}

function conflictWords(timeline: Exclude<Timeline, Placed>): string {
  if (timeline.kind === 'empty') return '';
  const ways = timeline.waysOut.map(({ text }) => `- ${escaped(text)}`);
  return paragraphs(escaped(timeline.message), ways.length > 0 ? `What would do:\n\n${ways.join('\n')}` : '');
}

/** `**Fri 17:20 – 21:20**` */
function timeWords({ zone }: Placed, { startMs, endMs }: TimelineStep): string {
  return `**${escaped(`${dayAndTime(startMs, zone).slice(0, 4)}${clockRange(startMs, endMs, zone)}`)}**`;
}

function timesWords(steps: readonly TimelineStep[], zone: string): string {
  const times = steps.slice(0, MOST_TIMES).map(({ startMs }) => dayAndTime(startMs, zone));
  const more = steps.length - times.length;
  return `**${escaped(times.join(', '))}**${more > 0 ? ` and ${more} more times` : ''}`;
}

function detailWords(timeline: Placed, step: TimelineStep): readonly (string | undefined)[] {
  const { date } = formatInstant(step.startMs, timeline.zone);
  const moments = handMoments(timeline, step).flatMap(({ epochMs, text }) => (text === undefined ? [] : [`${text} at ${clockOn(epochMs, date, timeline.zone)}`]));
  return [
    slackWords(step, timeline.zone),
    step.handsOn ? 'Hands needed all the while.' : sentence(moments.join(', ')),
    step.assumed ? 'No length is written; a usual one is taken.' : undefined,
    adaptedWords(step),
  ];
}

function slackWords({ startMs, earliestStartMs, latestStartMs }: TimelineStep, zone: string): string | undefined {
  if (latestStartMs - earliestStartMs < LEAST_SLACK_MS) return undefined;
  const { date } = formatInstant(startMs, zone);
  return escaped(`Can begin from ${clockOn(earliestStartMs, date, zone)} to ${clockOn(latestStartMs, date, zone)}, the other steps moving within their ranges.`);
}

/** `2 h 20 min to 3 h, not 2 h to 2 h 30 min as written: …` */
function adaptedWords({ adapted, lowMinutes, highMinutes }: TimelineStep): string | undefined {
  if (adapted === undefined) return undefined;
  return escaped(`${minutesRange(lowMinutes, highMinutes)}, not ${minutesRange(adapted.lowMinutes, adapted.highMinutes)} as written: ${adapted.why}`);
}

function sentence(text: string): string | undefined {
  return text === '' ? undefined : `${escaped(`${text.charAt(0).toUpperCase()}${text.slice(1)}`)}.`;
}

function minutes(ms: number): string {
  return formatDuration(Math.round(ms / 60_000));
}
