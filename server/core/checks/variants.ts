/** Findings of a variant, put where its own text brings them about. */
import type { Place, Section } from '../formula/model';
import type { Variant } from '../variant/model';
import { ownEdits } from '../variant/own-edits';
import { basePlace, changeAt, isOwnPlace, ownPlace, sourceOf } from '../variant/places';
import type { Finding, Fix, Related } from './check';
import { baseFaultyFinding } from './rules/base-faulty';
import { named } from './words';

export interface Compared {
  /** What the checks of these codes find in the base. */
  readonly ofBase: (codes: ReadonlySet<string>) => readonly Finding[];
  /** The variant without one of its changes, and what the checks of these codes find in it. */
  readonly without: (change: number, codes: ReadonlySet<string>) => { readonly section: Section; readonly findings: readonly Finding[] };
}

/** To look for the change that brings something about, a variant is worked out once more without each. */
const MOST_TRIED = 12;

/**
 * Each finding at the line of the variant that brings it about: the change, else the `based on` line. What the base has just so
 * is told there, and not again; its errors are told once, since the weights of the variant rest on them.
 */
export function findingsOfVariant(section: Section, variant: Variant, found: readonly Finding[], { ofBase, without }: Compared): readonly Finding[] {
  const settled: Finding[] = [];
  const passedOn: Finding[] = [];
  // Nobody asks the others again.
  const codes = new Set(found.filter(({ place }) => !isOwnPlace(section, place) && changeAt(section, place) === undefined).map(({ code }) => code));
  let inBase: ReadonlySet<string> | undefined;
  const tried = new Map<number, ReadonlySet<string>>();
  const isIn = (change: number, at: string): boolean => {
    let known = tried.get(change);
    if (known === undefined) {
      const { section: other, findings } = without(change, codes);
      tried.set(change, (known = new Set(findings.map(({ code, place }) => keyOf(code, basePlace(other, place))))));
    }
    return known.has(at);
  };
  for (const finding of found) {
    const { code, message, place } = finding;
    if (isOwnPlace(section, place)) {
      settled.push(inOwnText(section, finding, place));
      continue;
    }
    const change = changeAt(section, place);
    if (change !== undefined) {
      settled.push(inOwnText(section, finding, ownPlace(section, place)));
      continue;
    }
    const from = basePlace(section, place);
    inBase ??= new Set(ofBase(codes).map((one) => `${keyOf(one.code, one.place)} ${one.message}`));
    if (inBase.has(`${keyOf(code, from)} ${message}`)) {
      passedOn.push(finding);
      continue;
    }
    const cause = causeOf(variant, keyOf(code, from), isIn) ?? variant.basedOn;
    settled.push(inOwnText(section, finding, cause));
  }
  const errors = passedOn.filter(({ severity }) => severity === 'error');
  return withoutDoubles([...settled, ...(errors.length === 0 ? [] : [baseFaultyFinding(section, variant, errors)])]);
}

/** The last change without which it would not be found. */
function causeOf({ changes }: Variant, at: string, isIn: (change: number, at: string) => boolean): Place | undefined {
  if (changes.length > MOST_TRIED) return undefined;
  for (let change = changes.length - 1; change >= 0; change -= 1) {
    const { place, part } = changes[change] ?? {};
    if (part !== undefined && !isIn(change, at)) return place;
  }
  return undefined;
}

function keyOf(code: string, place: Place | undefined): string {
  return `${code} ${place === undefined ? '' : `${String(place.block)} ${String(place.start)}`}`;
}

/** At a place of the variant's own, with the line of the base that it is about. */
function inOwnText(section: Section, finding: Finding, place: Place): Finding {
  const { related, fixes } = finding;
  const from = isOwnPlace(section, finding.place) ? undefined : basePlace(section, finding.place);
  const source = from && section.variant && sourceOf(section.variant.base, from);
  const base: readonly Related[] = source === undefined ? [] : [{ elsewhere: source.block, start: source.start, end: source.end, message: `Here in ${named(section.variant?.base.name ?? '')}.` }];
  return { ...finding, place, related: [...related.flatMap((one) => relatedInText(section, one)), ...base], fixes: fixes.flatMap((fix) => fixInText(section, fix)) };
}

function relatedInText(section: Section, related: Related): readonly Related[] {
  if (!('place' in related) || isOwnPlace(section, related.place)) return [related];
  const source = sourceOf(section, related.place);
  return source === undefined ? [] : [{ elsewhere: source.block, start: source.start, end: source.end, message: related.message }];
}

/** A fix, where it can be written in the variant's own lines; what the base gives is no text of its own. */
function fixInText(section: Section, fix: Fix): readonly Fix[] {
  const edits = ownEdits(section, fix.edits, 1);
  return edits === undefined ? [] : [{ ...fix, edits }];
}

/** What is read both in a line of the variant and in what it makes of the base. */
function withoutDoubles(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ code, place, message }) => {
    const key = `${keyOf(code, place)} ${String(place.end)} ${message}`;
    return !seen.has(key) && seen.add(key);
  });
}
