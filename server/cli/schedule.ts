/** `proofsheet schedule`: when each step is, back from a ready time or on from a start. */
import { parseLocalInstant, unknownZone } from '../core/timeline/clock';
import type { TimelineRequest } from '../core/timeline/model';
import { timelineOf } from '../core/timeline/timeline';
import { zoneNamed } from '../core/timeline/zone-names';
import { scheduleJson } from '../output/schedule-json';
import { scheduleText } from '../output/schedule-text';
import { chosenFormulas } from './formulas';
import type { Options } from './options';
import { Refusal, worst } from './refusal';
import type { Verb } from './verb';
import type { Terminal } from './terminal';

export const schedule: Verb = {
  name: 'schedule',
  summary: 'gives every step a clock time',
  takes: '[FILES or FOLDERS] --ready TIME | --start TIME',
  about: [
    'Places the steps of each formula and of its preferments and soakers: back from the time when the bread must be ready, or '
      + 'on from the time when the first hand moves. A change of summer time on the way is reckoned with. "-" reads standard input.',
    'The exit status is 1 when the steps of a formula cannot be placed.',
  ],
  examples: ['proofsheet schedule rye.bake --ready "2026-03-14 08:00"', 'proofsheet schedule rye.bake --start "2026-03-13 17:00" --zone Europe/Lisbon'],
  options: {
    ready: { value: 'TIME', what: 'ready then: "2026-03-14 08:00"' },
    start: { value: 'TIME', what: 'begun then' },
    zone: { value: 'ZONE', what: 'such as Europe/Lisbon; if left out that of proofsheet.json, else of this machine' },
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    json: { what: 'the stable form for other programs' },
    asleep: { value: 'TIMES', what: 'hours without hands', later: true },
    room: { value: 'TEMPERATURE', what: 'another room temperature', later: true },
  },
  async run(options, { terminal, stdin, systemZone }) {
    const requestIn = requestsOf(options, systemZone, terminal);
    const chosen = await chosenFormulas({ options, terminal, stdin, done: 'scheduled', plans: true });
    const scheduled = chosen.entries.map((entry) => ({ entry, timeline: timelineOf(entry.formula, requestIn(entry.zone)) }));
    const { paint, width } = terminal;
    if (options.has('json')) terminal.out(scheduleJson(scheduled));
    else terminal.out(scheduled.map((each) => scheduleText(each, { width, paint })).join('\n\n'));
    return worst(chosen.status, scheduled.some(({ timeline }) => timeline.kind === 'conflict') ? 1 : 0);
  },
};

/**
 * What is asked for, in the zone of a workspace; one on the command line wins over it. A time that cannot be read is refused at
 * once, before any file is.
 */
function requestsOf(options: Options, systemZone: string, terminal: Terminal): (workspaceZone: string | undefined) => TimelineRequest {
  const [ready, start] = [options.get('ready'), options.get('start')];
  if (ready !== undefined && start !== undefined) throw new Refusal('--ready and --start cannot both be given: a schedule hangs on one of them.');
  const text = ready ?? start;
  if (text === undefined) {
    throw new Refusal('Say when the bread must be ready, or when to start: --ready "2026-03-14 08:00" or --start "2026-03-13 17:00".');
  }
  const asked = options.get('zone');
  const read = (wanted: string) => {
    const zone = zoneNamed(wanted);
    if (zone === undefined) throw new Refusal(unknownZone(wanted));
    const instant = parseLocalInstant(text, zone);
    if (instant.kind === 'bad') throw new Refusal(instant.message);
    return instant;
  };
  read(asked ?? systemZone);
  const known = new Map<string, TimelineRequest>();
  return (workspaceZone) => {
    const wanted = asked ?? workspaceZone ?? systemZone;
    let request = known.get(wanted);
    if (request === undefined) {
      const { epochMs, zone, note } = read(wanted);
      if (note !== undefined) terminal.say(note);
      request = { anchor: { kind: ready === undefined ? 'start' : 'ready', epochMs }, zone };
      known.set(wanted, request);
    }
    return request;
  };
}
