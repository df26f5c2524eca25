/** What is usual for a formula in the oven, and what it says itself. */
import type { Place, PlacedStep, ResolvedFormula } from '../formula/model';
import { styleOf, type Style } from '../checks/limits';
import { mapRange, rangeOf, type Range } from '../estimate';
import { volumeToMl, type MeasureSystem } from '../units/volume';
import { quantityMiddle, type StepDetail } from '../../../grammar';
import { CLASS_FIGURES, CORE_OUT_CELSIUS, CUT_CELSIUS, type BakeClass } from './constants';
import { boilingCelsius, boilingDrop, coolingConstantMinutes, coolingMinutes } from './heat';
import { panFactor } from './pans';

export interface BakingReport {
  /** By the formula's style; null when it says none that is known. */
  readonly bakeClass: BakeClass | null;
  /** Usual for the class, the core lowered by the height. */
  readonly usualCoreCelsius: Range | null;
  readonly usualOvenCelsius: Range | null;
  readonly usualOvenLoss: Range | null;
  readonly usualCoolHours: Range | null;
  /** What the bakes say: oven temperatures in their order, and the core they bake to. */
  readonly bakes: readonly { readonly place: Place; readonly ovenCelsius: number | null; readonly minutes: Range | null; readonly coreCelsius: number | null; readonly lid: boolean | null }[];
  /** Water boils here, C; null where the formula says no altitude. */
  readonly boilingCelsius: number | null;
  /** Until the core is down to 35 C in the formula's room; null where the room or the weight is not known, or never. */
  readonly minutesToCut: Range | null;
  /** ml of tin for each g of dough, where `makes` gives the tin's volume. */
  readonly panFactor: number | null;
}

/** Words of a style line that name a class of their own but no set of thresholds. */
const FINER: Readonly<Record<string, BakeClass>> = { baguette: 'baguette', baguettes: 'baguette' };
/** Where several styles are said, the one that says most about the oven. `with inclusions` says nothing of it. */
const BY_STYLE: Readonly<Record<Style, BakeClass | null>> = {
  hearth: 'hearth', pan: 'pan', enriched: 'enriched', brioche: 'brioche', rye: 'rye', 'whole grain': 'whole grain', flatbread: 'flatbread', cracker: null,
  bagel: 'bagel', 'sweet sourdough': 'sweet sourdough', 'with inclusions': null,
};

/** The first class that the words of a `style` line name. */
export function bakeClassOf(styles: readonly string[]): BakeClass | null {
  for (const word of styles) {
    const wanted = word.trim().toLowerCase();
    const finer = Object.hasOwn(FINER, wanted) ? FINER[wanted] : undefined;
    const style = styleOf(word);
    const found = finer ?? (style === undefined ? null : BY_STYLE[style]);
    if (found !== null) return found;
  }
  return null;
}

/** @param measures whose cup and spoon a tin's volume may be given in */
export function bakingReport(formula: ResolvedFormula, measures: MeasureSystem = 'us'): BakingReport {
  const bakeClass = bakeClassOf(formula.styles.map(({ text }) => text));
  const figures = bakeClass === null ? null : CLASS_FIGURES[bakeClass];
  const boiling = boilingCelsius(formula.altitudeMetres ?? 0);
  // Above the atmosphere is a slip of the pen; what it does to a loaf, nobody knows.
  const drop = Number.isFinite(boiling) ? boilingDrop(formula.altitudeMetres ?? 0) : 0;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const bakes = [...(dough?.steps ?? []), ...formula.method].filter(({ node }) => node.step === 'bake').map(bakeOf);
  const core = bakes.reduce<number | null>((last, { coreCelsius }) => coreCelsius ?? last, null);
  return {
    bakeClass,
    usualCoreCelsius: figures?.coreCelsius ? mapRange(rangeOf(figures.coreCelsius), (celsius) => celsius - drop) : null,
    usualOvenCelsius: figures && rangeOf(figures.ovenCelsius),
    usualOvenLoss: figures && rangeOf(figures.ovenLoss),
    usualCoolHours: figures && rangeOf(figures.coolHours),
    bakes,
    boilingCelsius: formula.altitudeMetres === null || !Number.isFinite(boiling) ? null : boiling,
    minutesToCut: minutesToCut(formula, core ?? CORE_OUT_CELSIUS.value - drop, figures ? rangeOf(figures.ovenLoss).mid : null),
    panFactor: panFactorOf(formula, measures),
  };
}

function bakeOf(step: PlacedStep): BakingReport['bakes'][number] {
  const { temperature, duration } = step.node;
  const core = detailOf(step, 'until-core')?.temperature;
  return {
    place: step.place,
    ovenCelsius: temperature?.kind === 'degrees' ? (temperature.lowCelsius + temperature.highCelsius) / 2 : null,
    minutes: duration ? { low: duration.lowMinutes, mid: (duration.lowMinutes + duration.highMinutes) / 2, high: duration.highMinutes } : null,
    coreCelsius: core?.kind === 'degrees' ? (core.lowCelsius + core.highCelsius) / 2 : null,
    lid: detailOf(step, 'lid')?.on ?? null,
  };
}

function detailOf<K extends StepDetail['kind']>(step: PlacedStep, kind: K): Extract<StepDetail, { readonly kind: K }> | undefined {
  return step.node.details.find((detail): detail is Extract<StepDetail, { readonly kind: K }> => detail.kind === kind);
}

function minutesToCut(formula: ResolvedFormula, core: number, usualLoss: number | null): Range | null {
  const { pieceGrams, bakedPieceGrams } = formula.yield;
  const grams = bakedPieceGrams ?? (pieceGrams === null || usualLoss === null ? null : pieceGrams * (1 - usualLoss));
  const room = formula.roomCelsius;
  if (grams === null || room === null) return null;
  const slow = coolingConstantMinutes(grams);
  const at = (constant: number) => coolingMinutes(core, room, CUT_CELSIUS.value, constant);
  const low = at(slow.low);
  const mid = at(slow.mid);
  const high = at(slow.high);
  return low === null || mid === null || high === null ? null : { low, mid, high };
}

function panFactorOf(formula: ResolvedFormula, measures: MeasureSystem): number | null {
  const each = formula.makes?.node.each;
  const { pieceGrams } = formula.yield;
  if (each?.kind !== 'volume' || pieceGrams === null || pieceGrams <= 0) return null;
  return panFactor(quantityMiddle(each.quantity) * volumeToMl(each.unit, measures), pieceGrams);
}
