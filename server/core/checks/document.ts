/** The catalogue of checks as one page of Markdown. Generated, so that the page, the editor and the tests cannot disagree. */
import type { Check, Severity } from './check';
import { otherWordsFor, STYLES } from './limits';
import { pages, type Page } from './pages';

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: 'error: the numbers cannot be right until it is settled',
  warning: 'warning: it can be baked, and probably not as meant',
  info: 'information: worth knowing, nothing wrong',
};

const SEVERITY_NAMES: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'information' };

/** Checks under a heading of the contents. */
export interface Topic {
  readonly title: string;
  readonly checks: readonly Check[];
}

/** The page: an introduction, the contents by topic, the limits by style, and a section for each code with the code as its heading, which is what links point to. */
export function documentChecks(topics: readonly Topic[]): string {
  const checks = topics.flatMap((topic) => topic.checks);
  return [INTRODUCTION, contents(topics), limitsByStyle(checks), ...checks.map(section), ...pages.map(pageOnly)].join('\n\n') + '\n';
}

function contents(topics: readonly Topic[]): string {
  const rows = (entries: readonly Pick<Check, 'code' | 'severity' | 'title'>[]) => [
    '| code | severity | what it finds |',
    '|---|---|---|',
    ...entries.map(({ code, severity, title }) => `| [${code}](#${code}) | ${SEVERITY_NAMES[severity]} | ${title} |`),
  ];
  const all = [...topics, { title: 'Whole files', checks: pages }];
  const jumps = [...all.map(({ title }) => title), STYLE_HEADING].map((title) => `[${title}](#${anchorOf(title)})`);
  return [
    `Contents: ${jumps.join(' · ')}`,
    ...all.map(({ title, checks }) => [`### ${title}`, '', ...rows(checks)].join('\n')),
  ].join('\n\n');
}

/** The address of a heading on the page, as the web makes it. */
function anchorOf(title: string): string {
  return title.toLowerCase().replace(/[^a-z0-9 -]/g, '').replaceAll(' ', '-');
}

const STYLE_HEADING = 'Limits by style';

/** One row for each limit that some style has a value of its own for. */
function limitsByStyle(checks: readonly Check[]): string {
  const rows = checks.flatMap(({ code, limits = {} }) =>
    Object.entries(limits).flatMap(([name, { value, byStyle }]) =>
      byStyle === undefined ? [] : [`| [${code}](#${code}) \`${name}\` | ${[value, ...STYLES.map((style) => byStyle[style] ?? '')].join(' | ')} |`],
    ),
  );
  return [
    `### ${STYLE_HEADING}`,
    '',
    'What counts for each word of a `style` line; an empty field takes the default. Other words for them: '
      + `${STYLES.map((style) => [style, otherWordsFor(style)] as const).filter(([, words]) => words.length > 0).map(([style, words]) => `${words.join(', ')} (${style})`).join('; ')}.`,
    '',
    `| limit | default | ${STYLES.join(' | ')} |`,
    `|---|---|${STYLES.map(() => '---|').join('')}`,
    ...rows,
  ].join('\n');
}

const INTRODUCTION = `# Checks

<!-- Generated from the rules in this folder. To write it anew: UPDATE=1 npx vitest run -c .config/vitest.config.mts tests/core/checks -->

Proofsheet reads a formula the way a colleague would before the flour is weighed. What it finds has a code, and each code has
a section below: why it matters, the numbers it goes by and where they come from, and text that trips it and text that does not.

**To accept a finding**, write why in a comment: \`# accept salt-low: a Tuscan loaf\`.

- At the end of a line it covers that line and the lines indented under it.
- Alone on a line it covers the next line and the lines indented under that.
- On the head line of a block, or above it, it covers the block. On the head of a \`formula\` or \`dish\`, all its parts and steps as well.

An \`accept\` without a reason silences nothing, and one that silences nothing is itself a finding.

**To change a limit**, set it by its code and name in \`proofsheet.json\`, beside the files or above them; it then counts for every style.
How much a check matters is set there too, and \`off\` silences one that has no place in this bakery:
\`{ "limits": { "salt-high": { "mostPct": 2.8 } }, "checks": { "vague-amount": "off" } }\`.
The same stands in the settings of the editor under \`proofsheet.limits\` and \`proofsheet.checks\`; a file goes before them. A name that is
misspelled, a value that is no number or a least above a most is told in \`proofsheet.json\`, under the code [settings](#settings).
Most limits are habits of the trade and say so. A formula says what it is in its \`style\` line: ${STYLES.join(', ')}. Of several
styles in one formula the more lenient limit counts; a style without a value of its own takes the default.`;

/** A finding about a whole file, or one that is no formula: there is no text to show, and nothing in it that could accept it. */
function pageOnly({ code, severity, title, why, source, where }: Page): string {
  return [`## ${code}`, `**${title}** (${SEVERITY_WORDS[severity]})`, why, `Source: ${source}.`, where].join('\n\n');
}

function section(check: Check): string {
  const trips = withoutMark(check.trips);
  const parts = [`## ${check.code}`, `**${check.title}** (${SEVERITY_WORDS[check.severity]})`, check.why];
  const limits = Object.entries(check.limits ?? {});
  if (limits.length > 0) {
    parts.push(
      [
        '| limit | default | by style | of what |',
        '|---|---|---|---|',
        ...limits.map(([name, limit]) => {
          const byStyle = Object.entries(limit.byStyle ?? {}).map(([style, value]) => `${style} ${value}`);
          return `| \`${name}\` | ${limit.value} ${limit.unit} | ${byStyle.join(', ') || 'the same for all'} | ${limit.what} |`;
        }),
      ].join('\n'),
    );
  }
  parts.push(`Source: ${check.source}.`);
  parts.push(`Found ${whereOf(check.trips)}:`, code(trips));
  parts.push('Nothing to find:', code(check.passes));
  if (check.fixed !== undefined) {
    parts.push('After the first repair on offer:', code(check.fixed));
  }
  if (check.code === 'accept-unused' || check.code === 'accept-without-reason') {
    parts.push('It cannot be accepted: take the comment out or mend it.');
  } else {
    parts.push(`To accept it: \`# accept ${check.code}: why\``);
  }
  return parts.join('\n\n');
}

/** `at `salt`` for the marked place; an empty mark stands at the end of a line. */
function whereOf(trips: string): string {
  const marked = /«([^»]*)»/.exec(trips)?.[1] ?? '';
  if (marked !== '') {
    return `at \`${marked}\``;
  }
  const line = trips.split('\n').find((candidate) => candidate.includes('«»')) ?? '';
  return `at the end of \`${line.replace('«»', '').trim()}\``;
}

function withoutMark(text: string): string {
  return text.replace(/[«»]/g, '');
}

function code(text: string): string {
  return `\`\`\`bake\n${text.endsWith('\n') ? text : `${text}\n`}\`\`\``;
}
