/** What fermentation says of a bulk, a preferment and the cold, in words; and the time of equal fermentation elsewhere. */
import type { Range } from '../../core/estimate';
import {
  BAKERS_YEAST_BY_DEGREE, bulkReport, CERTAIN_CELSIUS, cultureOf, equalHours, levainReport, proofReport, relativeRate, retardReport, SOURDOUGH_YEAST, UNCERTAINTY,
  type BulkReport, type LevainReport, type Organism, type RetardReport,
} from '../../core/fermentation';
import type { Place, ResolvedFormula, Totals } from '../../core/formula/model';
import { celsius } from '../numbers';
import { bothScales, hoursWords, type Fact, type FactBlock, lowered } from './words';

/** Stands beside every answer. */
export const WATCH = 'estimates: watch the dough';

/** Nothing for a formula with no preferment, bulk or retard. */
export function fermentationFacts(formula: ResolvedFormula, totals: Totals): FactBlock | undefined {
  const facts = [
    ...levainReport(formula).map((report): Fact => ({ label: formula.parts[report.part]?.name ?? 'levain', value: ripenessWords(report) })),
    ...bulkReport(formula, totals).flatMap((report) => factOf('bulk', bulkWords(report))),
    ...retardReport(formula).flatMap((report) => factOf(report.kind, retardWords(report))),
  ];
  if (facts.length === 0) return undefined;
  return { title: 'Fermentation', about: WATCH, facts, notes: [`Pace: ${paceSource(cultureOf(formula).organism ?? 'sourdough yeast')}.`] };
}

function factOf(label: string, value: string | undefined): readonly Fact[] {
  return value === undefined ? [] : [{ label, value }];
}

/** `about ripe when it goes in: it gets 5 to 7 h of 25 °C and peaks after 5 h to 9 h 30 min` */
export function ripenessWords({ ripeness, ripenedHours, ripeningCelsius, peakHours, unknown }: LevainReport): string {
  if (ripeness === null || ripenedHours === null || peakHours === null) return `not known: ${lowered(unknown ?? 'its peak cannot be worked out')}`;
  return `${ripeness} when it goes in: it gets ${hoursWords(ripenedHours)} of ${celsius(ripeningCelsius)} and peaks after ${hoursWords(peakHours)}`;
}

/** Undefined where nothing ferments the dough. */
export function bulkWords({ culture, claimedCelsius, claimedHours, startCelsius, equivalentHours, roomHours }: BulkReport): string | undefined {
  if (culture.organism === null) return undefined;
  if (claimedHours === null) return 'not known: nothing says how long it takes';
  if (claimedCelsius === null) return 'not known: nothing says how warm it is there';
  if (startCelsius === null || equivalentHours === null) return 'not known: nothing says how warm the dough begins, or what it weighs';
  const starts = Math.abs(startCelsius - claimedCelsius) < 0.5 ? '' : `, the dough beginning at ${celsius(startCelsius)}`;
  const room = roomHours === null ? '' : `; in the room it would take ${hoursWords(roomHours)}`;
  return `counts as ${hoursWords(equivalentHours)} of ${celsius(claimedCelsius)}${starts}${room}`;
}

export function retardWords({ culture, hours, fridgeCelsius, startCelsius, referenceCelsius, addedHours, hoursToStandstill }: RetardReport): string | undefined {
  if (culture.organism === null) return undefined;
  if (hours === null) return 'not known: nothing says how long it takes';
  if (fridgeCelsius === null) return 'not known: nothing says how cold it is there (fridge 4 C)';
  if (startCelsius === null || referenceCelsius === null || addedHours === null) return 'not known: nothing says how warm the dough goes in, or what it weighs';
  const still = hoursToStandstill === null ? '' : `, most of it in the first ${hoursWords(hoursToStandstill)}`;
  return `adds ${hoursWords(addedHours)} of ${celsius(referenceCelsius)}${still}`;
}

/** Where the pace of an organism comes from. */
export function paceSource(organism: Organism): string {
  return organism === "baker's yeast"
    ? `${BAKERS_YEAST_BY_DEGREE.source}`
    : `cardinal temperature model, Rosso and others 1993 and 1995; limits by ${SOURDOUGH_YEAST.source}`;
}

// --- the same elsewhere -----------------------------------------------------------------------------------------------

/** Temperatures that a kitchen has. */
const ELSEWHERE = [20, 22, 24, 26, 28] as const;

export interface Elsewhere {
  readonly organism: Organism;
  /** What is compared, as a sentence. */
  readonly what: string;
  readonly rows: readonly { readonly celsius: number; readonly hours: Range | null }[];
}

/** The time of equal fermentation of a bulk, a retard, a proof or a ripening at other temperatures; undefined where it cannot be told. */
export function elsewhereOf(formula: ResolvedFormula, place: Place): Elsewhere | undefined {
  const same = (other: { readonly place: Place }): boolean => other.place.block === place.block && other.place.start === place.start;
  const rise = [...bulkReport(formula), ...proofReport(formula)].find(same);
  if (rise) return claimElsewhere(rise);
  const retard = retardReport(formula).find(same);
  if (retard) return retardElsewhere(retard);
  for (const report of levainReport(formula)) {
    if (formula.parts[report.part]?.steps.some(same) === true) return ripeningElsewhere(report);
  }
  return undefined;
}

function claimElsewhere({ culture: { organism }, claimedHours, claimedCelsius }: BulkReport): Elsewhere | undefined {
  if (organism === null || claimedHours === null || claimedCelsius === null) return undefined;
  return { organism, what: `As far as ${hoursWords(claimedHours)} at ${bothScales(claimedCelsius)} it ferments in`, rows: rowsFor(organism, claimedHours, claimedCelsius) };
}

function ripeningElsewhere({ raisedBy, ripenedHours, ripeningCelsius }: LevainReport): Elsewhere | undefined {
  if (ripenedHours === null || ripeningCelsius === null || raisedBy === 'nothing') return undefined;
  const organism: Organism = raisedBy === 'yeast' ? "baker's yeast" : 'sourdough yeast';
  return { organism, what: `As ripe as after ${hoursWords(ripenedHours)} at ${bothScales(ripeningCelsius)} it is in`, rows: rowsFor(organism, ripenedHours, ripeningCelsius) };
}

/** What the cold adds is a range with its uncertainty in it already: it is carried over by the ratio of rates. */
function retardElsewhere({ culture: { organism }, addedHours, referenceCelsius }: RetardReport): Elsewhere | undefined {
  if (organism === null || addedHours === null || referenceCelsius === null) return undefined;
  const rows = ELSEWHERE.map((at) => {
    const ratio = relativeRate(organism, referenceCelsius) / relativeRate(organism, at);
    const hours = { low: addedHours.low * ratio, mid: addedHours.mid * ratio, high: addedHours.high * ratio };
    return { celsius: at, hours: Number.isFinite(ratio) && ratio > 0 ? hours : null };
  });
  return { organism, what: 'What the cold adds, its cooling down included, takes', rows };
}

function rowsFor(organism: Organism, hours: Pick<Range, 'low' | 'high'>, from: number): Elsewhere['rows'] {
  return ELSEWHERE.map((to) => {
    const low = equalHours(organism, hours.low, from, to);
    const mid = equalHours(organism, (hours.low + hours.high) / 2, from, to);
    const high = equalHours(organism, hours.high, from, to);
    return { celsius: to, hours: low && mid && high ? { low: low.low, mid: mid.mid, high: high.high } : null };
  });
}

/** How sure the rows are, and where they come from. */
export function elsewhereSource({ organism }: Elsewhere): string {
  const pct = (share: number): string => `${String(Math.round(share * 100))} %`;
  const { from, to } = CERTAIN_CELSIUS;
  return `The ranges allow ${pct(UNCERTAINTY.inside.value)} at ${String(from)} to ${String(to)} °C and ${pct(UNCERTAINTY.outside.value)} beyond; ${WATCH}. Source: ${paceSource(organism)}.`;
}
