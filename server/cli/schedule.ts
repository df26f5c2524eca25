/** `proofsheet schedule`: when each step is, back from a ready time or on from a start. */
import { fitPace, recordsOf } from '../core/records';
import type { Settings } from '../core/settings/settings';
import type { Conditions } from '../core/timeline/model';
import { timelineOf } from '../core/timeline/timeline';
import { dayEvents } from '../output/day-calendar';
import { dayText } from '../output/day-text';
import type { DayEntry } from '../output/day-words';
import { titleOf, type FormulaEntry } from '../output/entry';
import { benchText } from '../output/schedule-bench';
import { scheduleCalendar } from '../output/schedule-calendar';
import { scheduleJson, type ScheduledEntry } from '../output/schedule-json';
import { scheduleText } from '../output/schedule-text';
import { printable } from '../output/width';
import { chosenFormulas } from './formulas';
import { oneOf, type Options } from './options';
import { chosenPlans } from './plans';
import { Refusal, worst } from './refusal';
import { ASKED_OPTIONS, askedHere, momentText, scheduleAskedFor, type AskedHere, type AskedPace } from './schedule-asked';
import { scheduledDay, withinOf } from './schedule-day';
import type { Surroundings, Verb } from './verb';

export const schedule: Verb = {
  name: 'schedule',
  summary: 'gives every step a clock time',
  takes: '[FILES or FOLDERS] [--ready TIME | --start TIME]',
  about: [
    'Places the steps of each formula and of its preferments and soakers: back from the time by which the bread must be ready, '
      + 'or on from the time when the first hand moves. A change of summer time on the way is reckoned with. "-" reads standard input.',
    'Steps that need hands, and the moments when dough goes into the fridge or bread out of the oven, stay out of the hours of '
      + '--asleep and --away. Ranges such as "10 to 16 h" give way for it. Where nothing fits, it says which lines cannot hold '
      + 'together and what would help, and the exit status is 1.',
    'Without a time, the plans of the files are scheduled: whole bake days, with their own time, hours off, ovens, fridges, mixers and '
      + 'hands. It says what each oven holds, what each person does, what to weigh and what to have in the house, and how much better '
      + 'a day there could be at the most.',
    'In another room, with a dough measured warmer or colder, or at a pace of your own, bulk, proof and ripening take longer or '
      + 'shorter. That is a model: watch the dough.',
  ],
  examples: [
    'proofsheet schedule rye.bake --ready "2026-03-14 08:00" --asleep "22:30 to 05:30"',
    'proofsheet schedule rye.bake --start "2026-03-13 17:00" --zone Europe/Lisbon --room 19 --bench',
    'proofsheet schedule rye.bake --ready "2026-03-14 08:00" --to ics > saturday.ics',
    'proofsheet schedule market.bake --plan "Saturday"',
  ],
  options: {
    ...ASKED_OPTIONS,
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    plan: { value: 'NAME', what: 'only the plan of that name; with --ready or --start at another time than its own' },
    within: { value: 'TIME', what: 'for plans: how long a better day is looked for: 30s, 2min; else 10s' },
    bench: { what: 'for the bench: boxes to tick, what goes in at each step, cautions' },
    to: { value: 'ics', what: 'a calendar file, with an alarm where hands are needed' },
    json: { what: 'the stable form for other programs' },
  },
  async run(options, surroundings) {
    const { terminal, stdin, systemZone, nowMs } = surroundings;
    const print = formAskedFor(options);
    const asked = scheduleAskedFor(options, systemZone);
    const said = new Set<string>();
    const say = (note: string): void => {
      if (!said.has(note)) terminal.say(printable(note));
      said.add(note);
    };
    const { anchor } = asked;
    if (anchor === undefined || options.has('plan')) {
      if (options.has('formula')) throw new Refusal('--formula needs a time: --ready "2026-03-14 08:00" or --start "2026-03-13 17:00". A plan has its own, and is named with --plan.');
      if (print === 'bench') throw new Refusal('--bench is for formulas: a plan says what to weigh, and when, as it is.');
      const { plans, status } = await chosenPlans(options, terminal, stdin);
      const within = withinOf(options.get('within'));
      const days = plans.map((plan) => scheduledDay(plan, asked, within, surroundings, say));
      show(print, [], days, surroundings);
      return worst(status, days.some(({ schedule: { kind } }) => kind === 'conflict') ? 1 : 0);
    }
    if (options.has('within')) throw new Refusal('--within is for plans: the times of one formula are found at once.');
    const chosen = await chosenFormulas({ options, terminal, stdin, done: 'scheduled', plans: true });
    const here = new Map<Settings, AskedHere>();
    const scheduled = chosen.entries.map((entry): ScheduledEntry => {
      let asks = here.get(entry.settings);
      if (asks === undefined) here.set(entry.settings, (asks = askedHere({ ...asked, anchor }, entry.settings, surroundings, say)));
      const { anchor: at, zone, hoursOff } = asks;
      const conditions = { ...asks.conditions, ...paceOf(entry, asked.pace, say) };
      const timeline = timelineOf(entry.formula, { anchor: at, zone, hoursOff, conditions });
      if (timeline.kind === 'placed' && timeline.startMs < nowMs && at.epochMs >= nowMs) {
        say(`"${titleOf(entry.formula)}" would have had to begin at ${momentText(timeline.startMs, timeline.zone)}, which has passed. Choose a later time.`);
      }
      return { entry, timeline, hoursOff };
    });
    show(print, scheduled, [], surroundings);
    return worst(chosen.status, scheduled.some(({ timeline }) => timeline.kind === 'conflict') ? 1 : 0);
  },
};

type Form = 'text' | 'json' | 'bench' | 'ics';

function show(form: Form, scheduled: readonly ScheduledEntry[], days: readonly DayEntry[], { terminal, nowMs }: Pick<Surroundings, 'terminal' | 'nowMs'>): void {
  const { paint, width } = terminal;
  switch (form) {
    case 'json':
      return terminal.out(scheduleJson(scheduled, days));
    case 'ics':
      terminal.out(scheduleCalendar(scheduled, nowMs, days.flatMap(dayEvents)));
      // A calendar has no place for what could not be placed.
      for (const each of scheduled) if (each.timeline.kind === 'conflict') terminal.say(scheduleText(each).trimEnd());
      for (const each of days) if (each.schedule.kind === 'conflict') terminal.say(dayText(each).trimEnd());
      return;
    case 'bench':
    case 'text': {
      const print = form === 'bench' ? benchText : scheduleText;
      return terminal.out([...scheduled.map((each) => print(each, { width, paint })), ...days.map((each) => dayText(each, { width, paint }))].join('\n\n'));
    }
  }
}

/** The pace of a formula's own records is that of its baker; where they do not tell it, that is said and the formula's own is taken. */
function paceOf({ formula }: Pick<FormulaEntry, 'formula'>, pace: AskedPace | undefined, say: (note: string) => void): Pick<Conditions, 'pace'> {
  if (pace !== 'own') return pace === undefined ? {} : { pace };
  const fitted = fitPace(formula, recordsOf(formula));
  if ('pace' in fitted) return { pace: fitted.pace };
  say(`"${titleOf(formula)}" is given at its written pace: ${fitted.reason}`);
  return {};
}

/** @throws Refusal for two forms at once, or a file of a kind that there is not */
function formAskedFor(options: Options): Form {
  const given = ['json', 'bench', 'to'].filter((name) => options.has(name));
  if (given.length > 1) throw new Refusal(`${given.map((name) => `--${name}`).join(' and ')} ask for different forms: give one of them.`);
  if (options.has('to')) return oneOf(options, 'to', ['ics'] as const, 'ics');
  return options.has('json') ? 'json' : options.has('bench') ? 'bench' : 'text';
}
