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
