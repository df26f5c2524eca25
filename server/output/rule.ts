/** What programs that show findings are told of a check: its name, why it matters, its limits, and how to accept what it finds. */
import { checks } from '../core/checks';
import type { Check, Severity } from '../core/checks/check';
import { pages } from '../core/checks/pages';

export interface Rule {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  readonly why: string;
  readonly helpText: string;
  readonly helpMarkdown: string;
}

/** Every code that a finding can have, in the order of the page of checks. */
export function allRules(): readonly Rule[] {
  return [
    ...checks.map((check) => rule(check, check.limits ?? {}, `# accept ${check.code}: why`)),
    ...pages.map((page) => rule(page, {}, undefined)),
  ];
}

function rule({ code, severity, title, why, source }: Pick<Check, 'code' | 'severity' | 'title' | 'why' | 'source'>, limits: NonNullable<Check['limits']>, accept: string | undefined): Rule {
  const rows = Object.entries(limits);
  const sentences = rows.map(([name, { value, unit, what }]) => `${name} is ${String(value)} ${unit} (${what}).`);
  return {
    code, severity, title, why,
    helpText: [why, ...sentences, `Source: ${source}.`, ...(accept === undefined ? [] : [`To accept it, write behind the line: ${accept}`])].join(' '),
    helpMarkdown: [
      `**${title}**`,
      why,
      ...(rows.length === 0 ? [] : [[
        '| limit | default | of what |', '|---|---|---|', ...rows.map(([name, { value, unit, what }]) => `| \`${name}\` | ${String(value)} ${unit} | ${what} |`),
      ].join('\n')]),
      `Source: ${source}.`,
      ...(accept === undefined ? [] : [`To accept it, write behind the line: \`${accept}\``]),
    ].join('\n\n'),
  };
}
