/** `proofsheet export`: formulas as pages, tables, calendars and recipes, to print, to publish and for other programs. */
import path from 'node:path';
import type { Settings } from '../core/settings/settings';
import { timelineOf } from '../core/timeline/timeline';
import { titleOf } from '../output/entry';
import { ENDINGS, EXPORT_FORMS, exported, type ExportEntry, type ExportForm } from '../output/export/forms';
import { fileNameOf } from '../output/export/file-name';
import { scheduleText } from '../output/schedule-text';
import { printable } from '../output/width';
import { cannotRead, slashes, sourcesOf } from './files';
import { chosenFormulas } from './formulas';
import { oneOf, type Options, type OptionSpecs } from './options';
import { Refusal, worst, type ExitStatus } from './refusal';
import { ASKED_OPTIONS, askedHere, momentText, scheduleAskedFor, type AskedHere } from './schedule-asked';
import { scaledEntry } from './sheet';
import { SIZE_OPTIONS, sizeAskedFor, stepAskedFor } from './size';
import type { Surroundings, Verb } from './verb';
import { isFolder, writeTarget, type Target } from './write-file';

/** Those of a schedule that a card can show; `--dough` is a size here, as for `sheet`. */
const TIMES = ['ready', 'start', 'zone', 'asleep', 'away', 'room'] as const;
const TIME_OPTIONS: OptionSpecs = Object.fromEntries(TIMES.flatMap((name) => {
  const spec = ASKED_OPTIONS[name];
  return spec === undefined ? [] : [[name, spec]];
}));
/** Forms that have nothing of time in them. */
const TIMELESS: readonly ExportForm[] = ['csv', 'json'];

export const exportVerb: Verb = {
  name: 'export',
  summary: 'writes method cards, tables, calendars and recipes for other programs',
  takes: '[FILES or FOLDERS] --to FORM [--out FILE or FOLDER]',
  about: [
    'Writes formulas in another form: html is a method card to print or to hand on, one page a formula, that needs nothing else; markdown the same '
      + 'as text; csv the weights for a spreadsheet; jsonld a schema.org Recipe for a web page; json the sheet for other programs; ics a '
      + 'calendar, which needs a time. "-" reads standard input.',
    'Without --out it goes to standard output. With a file all formulas go into it, and its ending says the form where --to does not; with a folder '
      + 'each has a file of its own, named after it. A file that is there is left as it is, unless --force is given.',
    'The sizes and --step are those of sheet, the times those of schedule. Without a time a card says day 1, day 2, and the time of day.',
  ],
  examples: [
    'proofsheet export rye.bake --to html --out rye.html',
    'proofsheet export rye.bake --out rye.md --pieces 6 --ready "2027-03-13 08:00"',
    'proofsheet export . --to html --out cards/ --force',
    'proofsheet export rye.bake --to jsonld',
  ],
  options: {
    to: { value: 'FORM', what: `${EXPORT_FORMS.slice(0, -1).join(', ')} or ${EXPORT_FORMS.at(-1) ?? ''}` },
    out: { value: 'FILE|FOLDER', what: 'where it goes; a folder has a slash behind it, or is there' },
    force: { what: 'writes over files that are there' },
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    ...SIZE_OPTIONS,
    ...TIME_OPTIONS,
  },
  async run(options, surroundings) {
    const { terminal, nowMs } = surroundings;
    const form = formAskedFor(options);
    const given = TIMES.filter((name) => options.has(name));
    if (TIMELESS.includes(form) && given.length > 0) throw new Refusal(`${form} has no times in it: leave ${given.map((name) => `--${name}`).join(' and ')} out.`);
    if (options.has('room') && !options.has('ready') && !options.has('start')) throw new Refusal('--room says how long the dough rises today, and so needs a time: --ready "2027-03-13 08:00" or --start.');
    const { entries: asked, status } = await entriesAskedFor(options, surroundings, form);
    // A calendar has no place for what could not be placed, and an empty one is of no use.
    const entries = form === 'ics' ? asked.filter(({ timeline }) => timeline?.kind === 'placed') : asked;
    if (entries.length === 0) return worst(status, 1);
    const out = options.get('out');
    if (out === undefined) {
      terminal.out(exported(form, entries, nowMs));
      return status;
    }
    const sources = (await sourcesOf(options.files.length === 0 ? ['.'] : options.files)).sources.flatMap(({ file }) => file ?? []);
    let failed = false;
    for (const { target, own } of await targetsOf(out, form, entries)) {
      const written = await writeTarget(target, exported(form, own, nowMs), { force: options.has('force'), sources });
      terminal.say(printable(written.kind === 'written' ? `Wrote ${target.shown}.` : written.sentence));
      failed ||= written.kind === 'not-written';
    }
    return worst(status, failed ? 2 : 0);
  },
};

/** @throws Refusal for a form that there is not, or where neither `--to` nor the ending of `--out` says one */
function formAskedFor(options: Options): ExportForm {
  if (options.has('to')) return oneOf(options, 'to', EXPORT_FORMS, 'html');
  const ending = path.extname(options.get('out') ?? '').slice(1).toLowerCase();
  const found = EXPORT_FORMS.find((form) => form === ending || ENDINGS[form] === ending || (form === 'html' && ending === 'htm'));
  if (found === undefined) throw new Refusal(`Say the form: --to ${EXPORT_FORMS.join(', --to ').replace(/, (--to \w+)$/, ' or $1')}.`);
  return found;
}

interface Asked {
  readonly entries: readonly ExportEntry[];
  readonly status: ExitStatus;
}

/** The formulas at the size and time that are asked for. What cannot be is said, and left out: all of it of a size, the times of a time. */
async function entriesAskedFor(options: Options, surroundings: Surroundings, form: ExportForm): Promise<Asked> {
  const { terminal, stdin, systemZone, nowMs } = surroundings;
  const request = sizeAskedFor(options);
  const step = stepAskedFor(options);
  const asked = scheduleAskedFor({ ...options, get: (name) => (name === 'dough' ? undefined : options.get(name)) }, systemZone);
  const { anchor } = asked;
  if (form === 'ics' && anchor === undefined) throw new Refusal('A calendar needs a time: --ready "2027-03-13 08:00" or --start "2027-03-12 17:00".');
  const said = new Set<string>();
  const say = (note: string): void => {
    if (!said.has(note)) terminal.say(printable(note));
    said.add(note);
  };
  const chosen = await chosenFormulas({ options, terminal, stdin, done: 'exported', plans: false });
  const here = new Map<Settings, AskedHere>();
  let status = chosen.status;
  const entries = chosen.entries.flatMap((entry): readonly ExportEntry[] => {
    const title = titleOf(entry.formula);
    const scaled = request === undefined ? entry : scaledEntry(entry, request, (note) => say(`"${title}": ${note}`));
    if (typeof scaled === 'string') {
      say(`"${title}" cannot be brought to that size. ${scaled}`);
      status = 2;
      return [];
    }
    const sized = { ...scaled, step, settings: entry.settings };
    if (anchor === undefined) return [{ ...sized, settings: { ...entry.settings, ...hoursOf(asked) }, timeline: undefined }];
    let asks = here.get(entry.settings);
    if (asks === undefined) here.set(entry.settings, (asks = askedHere({ ...asked, anchor }, entry.settings, surroundings, say)));
    const { zone, hoursOff, conditions } = asks;
    const timeline = timelineOf(scaled.formula, { anchor: asks.anchor, zone, hoursOff, conditions });
    if (timeline.kind === 'conflict' || (timeline.kind === 'empty' && form === 'ics')) {
      terminal.say(scheduleText({ entry: scaled, timeline }).trimEnd());
      status = worst(status, 1);
    } else if (timeline.kind === 'placed' && timeline.startMs < nowMs && asks.anchor.epochMs >= nowMs) {
      say(`"${title}" would have had to begin at ${momentText(timeline.startMs, timeline.zone)}, which has passed. Choose a later time.`);
    }
    return [{ ...sized, timeline, hoursOff }];
  });
  return { entries, status };
}

function hoursOf({ asleep, away }: Pick<ReturnType<typeof scheduleAskedFor>, 'asleep' | 'away'>): Pick<Settings, 'asleep' | 'away'> {
  return { ...(asleep !== undefined && { asleep }), ...(away !== undefined && { away }) };
}

/** One file for all of them, or one each in a folder. */
async function targetsOf(out: string, form: ExportForm, entries: readonly ExportEntry[]): Promise<readonly { readonly target: Target; readonly own: readonly ExportEntry[] }[]> {
  try {
    if (!await isFolder(out)) return [{ target: { file: path.resolve(out), shown: slashes(out) }, own: entries }];
  } catch (error) {
    throw new Refusal(cannotRead(slashes(out), error));
  }
  const taken = new Set<string>();
  return entries.map((entry) => {
    const name = fileNameOf(titleOf(entry.formula), ENDINGS[form], taken);
    return { target: { file: path.resolve(out, name), shown: `${slashes(out).replace(/\/+$/, '')}/${name}` }, own: [entry] };
  });
}
