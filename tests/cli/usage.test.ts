import { Readable } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { version } from '../../package.json';
import { run } from '../../server/cli/run';
import type { Terminal } from '../../server/cli/terminal';
import { plain } from '../../server/output/paint';
import { proofsheet } from './program';

describe('help', () => {
  test('lists what there is', async () => {
    const { status, out, err } = await proofsheet(['--help']);
    expect(status).toBe(0);
    expect(err).toBe('');
    for (const verb of ['check', 'sheet', 'schedule', 'scale', 'format', 'compare', 'export', 'convert', 'record']) expect(out).toMatch(new RegExp(`^  ${verb} {2,}\\S`, 'm'));
  });

  test.each(['check', 'sheet', 'schedule', 'scale', 'format', 'compare', 'export', 'convert', 'record'])('%s --help says what it takes', async (verb) => {
    const { status, out, err } = await proofsheet([verb, '--help']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(new RegExp(`^proofsheet ${verb} `));
    expect(await proofsheet(['help', verb])).toEqual({ status, out, err });
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
  });

  test('--version', async () => {
    expect(await proofsheet(['--version'])).toEqual({ status: 0, out: `${version}\n`, err: '' });
  });

  test('without a verb: the help, as a mistake', async () => {
    const { status, out, err } = await proofsheet([]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/proofsheet VERB/);
  });
});

/** The same without a process around it: nothing here gets as far as a file. */
async function refused(args: readonly string[]): Promise<{ readonly status: number; readonly out: string; readonly err: string }> {
  let [out, err] = ['', ''];
  const terminal: Terminal = {
    out: (text) => (out += text), say: (sentence) => (err += `${sentence}\n`), progress: () => undefined, paint: plain, width: 100,
  };
  const status = await run(args, { terminal, stdin: Readable.from([]), systemZone: 'Europe/Lisbon', nowMs: 0 }, false);
  return { status, out, err };
}

describe('what cannot be done is said in a sentence, with exit status 2', () => {
  const cases: readonly (readonly [args: readonly string[], sentence: RegExp])[] = [
    [['chekc'], /^There is no verb "chekc"\. Did you mean "check"\?/],
    [['shcedule'], /Did you mean "schedule"\?/],
    [['bake'], /^There is no verb "bake"\. Verbs are check, sheet, schedule, scale, format, /],
    [['--json'], /^The verb comes first/],
    [['scale', 'x.bake'], /^Say the size: --pieces 6, /],
    [['scale', '--factor', '2'], /^Name one file to scale, or "-" for standard input\.$/],
    [['scale', 'a.bake', 'b.bake', '--factor', '2'], /^Name one file to scale/],
    [['scale', '-', '--factor', '2', '--write'], /^Standard input cannot be rewritten/],
    [['scale', 'x.bake', '--factor', '2', '--step', 'fine'], /^--step takes a weight above 0, such as "1 g" or "0\.1 g", not "fine"\.$/],
    [['scale', 'x.bake', '--factor', '-1'], /^--factor needs a value|^--factor takes a number above 0/],
    [['scale', 'x.bake', '--factor', 'NaN'], /^--factor takes a number above 0/],
    [['scale', 'x.bake', '--factor', '1e9'], /^--factor takes a number above 0/],
    [['scale', 'x.bake', '--tin', '1.8'], /^--tin takes a volume above 0, such as "1\.8 l" or "750 ml", not "1\.8"\.$/],
    [['sheet', '--tin', '1.8 kg'], /^--tin takes a volume above 0/],
    [['sheet', '--step', '0'], /^--step takes a weight above 0/],
    [['sheet', '--tin', '1l', '--have', '3 eggs'], /^--have and --tin both ask for a size/],
    [['export'], /^Say the form: --to html, --to markdown, /],
    [['check', '--jsno'], /^There is no option --jsno for check\. Did you mean --json\?/],
    [['check', '-x'], /^There is no option -x for check\./],
    [['check', '--__proto__'], /^There is no option --__proto__ for check\./],
    [['check', '--json=yes'], /^--json takes no value\./],
    [['check', '--fail-on'], /^--fail-on needs a value: --fail-on error\|warning\|info\./],
    [['check', '--fail-on', 'eror'], /^--fail-on takes error, warning or info, not "eror"\. Did you mean "error"\?$/],
    [['check', '--format', 'xml'], /^--format takes text, json, sarif or github, not "xml"\.$/],
    [['check', '--json', '--format', 'sarif'], /^--json and --format sarif contradict each other: leave one out\.$/],
    [['check', '--help-page', 'https://bakery.example/checks'], /^--help-page is for the links of --format sarif, and means nothing without it\.$/],
    [['check', '--format', 'sarif', '--help-page', 'checks.md'], /^--help-page takes an address that begins with https:\/\/ or http:\/\/, not "checks\.md"\.$/],
    [['check', '--threads', '0'], /^--threads takes a number from 1 to 64, not "0"\.$/],
    [['check', '--baseline', 'a', '--write-baseline', 'b'], /^--baseline leaves out what is known, and --write-baseline writes down all that is found: give one of them\.$/],
    [['check', '--write-baseline', 'a', '--changed-since', 'main'], /^--write-baseline writes down all that is found, so it cannot look at changed files only: leave --changed-since out\.$/],
    [['check', '--write-baseline', 'a', '--json'], /^--write-baseline tells no findings, so a format has no meaning with it: leave one out\.$/],
    [['check', '--changed-since', '--output=x'], /^--changed-since/],
    [['check', '--json', '--format', 'text'], /contradict each other/],
    [['sheet', '--pieces', '2', '--factor', '3'], /^--pieces and --factor both ask for a size/],
    [['sheet', '--pieces', 'two'], /^--pieces takes a number above 0, such as 4 or 2\.5, not "two"\.$/],
    [['sheet', '--pieces=-2'], /^--pieces takes a number above 0/],
    [['sheet', '--factor', '0'], /^--factor takes a number above 0/],
    [['sheet', '--dough', '5 stone'], /^--dough takes a weight above 0, such as "900 g" or "5 kg", not "5 stone"\.$/],
    [['sheet', '--have', 'starter'], /^--have takes a weight or a count and a name, such as "180 g starter" or "3 eggs", not "starter"\.$/],
    [['schedule', '-'], /^Say when the bread must be ready, or when to start: .* the plans of the files are scheduled, and there is none\.$/],
    [['schedule', '-', '--formula', 'Rye'], /^--formula needs a time: --ready /],
    [['schedule', '-', '--plan', 'Rye'], /^There is no plan "Rye" in these files\.$/],
    [['schedule', '-', '--bench'], /^--bench is for formulas: /],
    [['schedule', '--ready', '2026-03-14 08:00', '--start', '2026-03-13 08:00'], /^--ready and --start cannot both be given/],
    [['schedule', '--ready', 'tomorrow'], /"tomorrow" is not a date and a time/],
    [['schedule', '--ready', '2026-03-14 08:00', '--zone', 'Europe/Lisbn'], /There is no time zone "Europe\/Lisbn"\. Did you mean Europe\/Lisbon/],
    [['schedule', '--asleep', 'at night'], /^--asleep: "at night" says no hours\. Write when they begin and end: 22:30 to 05:30\.$/],
    [['schedule', '--away', '9 am to 5 pm'], /^--away: .*09:00 to 17:00 on Mon to Fri/],
    [['schedule', '--asleep', '22:30-25:00'], /^--asleep: "25:00" is no time of day\./],
    [['schedule', '--room', 'warm'], /^--room takes degrees, such as 21, "21 C" or "70 F", not "warm"\.$/],
    [['schedule', '--room', '70'], /^--room takes 0 to 45 C, and this is 70 C\. Is it Fahrenheit\? Then write "70 F"\.$/],
    [['schedule', '--room', '21,5'], /Write a point, not a comma: --room 21\.5\.$/],
    [['schedule', '--room', '400 F'], /^--room takes 0 to 45 C, and this is 204\.4 C\.$/],
    [['schedule', '--dough', '-3'], /^--dough (needs a value|takes 0 to 45 C)/],
    [['schedule', '--dough', '26 K'], /^--dough takes degrees, such as 26, "26 C" or "79 F", not "26 K"\.$/],
    [['schedule', '--pace', 'onw'], /^--pace takes "own", or a number from 0\.2 to 5, .* not "onw"\. Did you mean "own"\?$/],
    [['schedule', '--pace', '110'], /^--pace takes "own", or a number from 0\.2 to 5/],
    [['schedule', '--to', 'isc'], /^--to takes ics, not "isc"\. Did you mean "ics"\?$/],
    [['schedule', '--to', 'ics', '--json'], /^--json and --to ask for different forms: give one of them\.$/],
    [['schedule', '--aslep', '22:30-06:00'], /^There is no option --aslep for schedule\. Did you mean --asleep\?/],
    [['format'], /^Name a file to lay out/],
    [['format', '--write', '--check'], /cannot both be given/],
    [['format', '--write', '-'], /^Standard input cannot be rewritten/],
  ];

  test.each(cases)('%j', async (args, sentence) => {
    const { status, out, err } = await refused(args);
    expect(err.trimEnd()).toMatch(sentence);
    expect({ status, out }).toEqual({ status: 2, out: '' });
  });
});

describe('a fault of the program itself', () => {
  const faulty: Terminal = {
    out: () => {
      throw new TypeError('the oven is off');
    },
    say: (sentence) => said.push(sentence), progress: () => undefined, paint: plain, width: 100,
  };
  const said: string[] = [];

  test.each([[false, /^Proofsheet came upon a fault of its own and stopped: the oven is off \(PROOFSHEET_DEBUG=1 tells where\.\)$/], [true, /^TypeError: the oven is off\n\s+at /]])(
    'is one sentence, and where it is only when asked for: %s', async (debug, sentence) => {
      said.length = 0;
      expect(await run(['--help'], { terminal: faulty, stdin: Readable.from([]), systemZone: 'UTC', nowMs: 0 }, debug)).toBe(2);
      expect(said).toHaveLength(1);
      expect(said[0]).toMatch(sentence);
    },
  );
});

test('a mistake in a real process: status 2, a sentence on standard error, nothing on standard output', async () => {
  expect(await proofsheet(['check', '--fail-on', 'eror'])).toEqual({
    status: 2, out: '', err: '--fail-on takes error, warning or info, not "eror". Did you mean "error"?\n',
  });
});
