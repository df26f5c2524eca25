/**
 * JSON for other programs: two spaces of indent, a line end at the end. Numbers to a millionth, so that the dust of binary
 * fractions does not show as a change; what is no number is null, never 0.
 */
export function json(value: unknown): string {
  return `${JSON.stringify(value, (_key, each: unknown) => (typeof each === 'number' ? stable(each) : each), 2)}\n`;
}

function stable(value: number): number | null {
  if (!Number.isFinite(value)) return null;
  const rounded = Number(value.toFixed(6));
  return rounded === 0 ? 0 : rounded;
}

/** A value, as `json` writes it, as one more of a list that is written item by item. `depth`: how deep the list's own bracket stands, in levels. */
export function listItem(text: string, depth: number, hasBefore: boolean): string {
  const indent = '  '.repeat(depth);
  return `${hasBefore ? ',' : ''}\n${text.trimEnd().split('\n').map((line) => indent + line).join('\n')}`;
}
