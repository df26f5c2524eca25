/** How a rule file states a check: the rule says what it found, this adds what every finding carries. */
import type { Trouble } from '../formula/model';
import type { Check, CheckContext, Finding } from './check';

/** What a rule says of one place. */
export interface Found {
  readonly place: Finding['place'];
  readonly message: string;
  readonly fixes?: Finding['fixes'];
  readonly related?: Finding['related'];
}

export interface Rule extends Omit<Check, 'run'> {
  readonly find: (context: CheckContext) => readonly Found[];
}

export function defineCheck({ find, ...check }: Rule): Check {
  return {
    ...check,
    run: (context) =>
      find(context).map(({ place, message, fixes = [], related = [] }) => ({
        code: check.code,
        severity: check.severity,
        message,
        place,
        fixes,
        related,
      })),
  };
}

/** The resolver's troubles of one kind; none where there is no formula. */
export function troublesOf<K extends Trouble['kind']>(context: CheckContext, kind: K): readonly Extract<Trouble, { kind: K }>[] {
  return (context.formula?.troubles ?? []).filter((trouble): trouble is Extract<Trouble, { kind: K }> => trouble.kind === kind);
}
