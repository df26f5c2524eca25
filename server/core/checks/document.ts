/** The catalogue of checks as one page of Markdown. Generated, so that the page, the editor and the tests cannot disagree. */
import type { Check, Severity } from './check';
import { STYLES } from './limits';
import { pages, type Page } from './pages';

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: 'error: the numbers cannot be right until it is settled',
  warning: 'warning: it can be baked, and probably not as meant',
  info: 'information: worth knowing, nothing wrong',
};

/** The page: an introduction, a table of all codes, and a section for each with its code as the heading, which is what links point to. */
export function documentChecks(checks: readonly Check[]): string {
  return [
    INTRODUCTION,
    contents(checks),
    ...checks.map(section),
    ...pages.map(pageOnly),
  ].join('\n\n') + '\n';
}

function contents(checks: readonly Check[]): string {
  const rows = [...checks, ...pages].map(({ code, severity, title }) => `| [${code}](#${code}) | ${severity} | ${title} |`);
  return ['| code | severity | what it finds |', '|---|---|---|', ...rows].join('\n');
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
Most limits are habits of the trade and say so. The styles are: ${STYLES.join(', ')}. Of several styles in one formula the
more lenient limit counts; a style without a value of its own takes the default.`;

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
