/** Severities that a workspace gives to checks instead of their own. */
import type { Finding, Severity } from './check';

/** By check code. `off`: nothing is said. */
export type SeverityOverrides = Readonly<Record<string, Severity | 'off'>>;

/**
 * The findings as a workspace wants to hear them. It comes after `accept` comments have done their work: a comment on a
 * check that is off has silenced something all the same, and is not called useless.
 */
export function withSeverities(findings: readonly Finding[], overrides: SeverityOverrides = {}): readonly Finding[] {
  return findings.flatMap((finding) => {
    const severity = Object.hasOwn(overrides, finding.code) ? overrides[finding.code] : undefined;
    if (severity === undefined) return [finding];
    return severity === 'off' ? [] : [{ ...finding, severity }];
  });
}
