/**
 * When a formula is begun and ready, as far as somebody says so: the baker in the editor. Lens, hover, findings and preview
 * all ask here, so that they agree.
 */
import { formatInstant, parseLocalInstant } from '../../core/timeline/clock';
import type { Conditions, HoursOff, Timeline, TimelineRequest } from '../../core/timeline/model';
import type { Settings } from '../../core/settings/settings';
import type { ChosenTime, PlacedSection, ProjectFile } from '../../project/file';
import { timelineFor } from '../../project/timelines';

export interface Scheduled {
  readonly request: TimelineRequest;
  readonly timeline: Timeline;
}

/** The timeline of a formula or dish by the time that is said for it; undefined when nobody says one or it has no steps. */
export function scheduleOf(file: ProjectFile, { section, analysis: { formula } }: PlacedSection): Scheduled | undefined {
  const chosen = chosenFor(file, section.name);
  if (formula === undefined || chosen === undefined) return undefined;
  const request = requestIn(file, chosen.zone, chosen.anchor);
  const timeline = timelineFor(formula, request);
  return timeline.kind === 'empty' ? undefined : { request, timeline };
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
  const day = dayOf(file.settings);
  if (own === zone) return { zone, anchor: { kind, epochMs }, ...day };
  const instant = local === undefined ? undefined : parseLocalInstant(local, own);
  return { zone: own, anchor: { kind, epochMs: instant?.kind === 'instant' ? instant.epochMs : epochMs }, ...day };
}

/** The zone of the settings file, or the one that the editor has. */
export function zoneIn({ settingsFile }: ProjectFile, zone: string): string {
  return settingsFile?.settings.zone ?? zone;
}

/** When nobody works, and how warm the room is today, by the settings. */
function dayOf({ asleep = [], away = [], roomTodayCelsius }: Settings): { readonly hoursOff?: readonly HoursOff[]; readonly conditions?: Conditions } {
  const hoursOff = [...asleep, ...away];
  return {
    ...(hoursOff.length > 0 && { hoursOff }),
    ...(roomTodayCelsius !== undefined && { conditions: { roomCelsius: roomTodayCelsius } }),
  };
}

/** `Begin Fri 17:20, ready Sat 08:00`; for a conflict, what cannot be. */
export function scheduleWords({ request, timeline }: Scheduled): string {
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
