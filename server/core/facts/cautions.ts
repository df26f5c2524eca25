/**
 * Safety cautions that ship with a method, where they apply, each with the public guidance it comes from. They inform; local
 * food rules come first, and each says so.
 */
import type { StepDetail, StepKind } from '../../../grammar';
import type { Basis } from '../estimate';
import { hoursOf } from '../fermentation';
import type { Place, PlacedStep, ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { ambientOf } from '../timeline/ambient';
import type { Timeline } from '../timeline/model';
import { fahrenheit } from '../units/temperature';
import { HONEY, RAW_FLOUR, SAFETY } from './constants';
import { rawEggIn } from './raw-egg';
import { isEggDishDone } from './safety';

export type CautionCode =
  | 'raw-flour' | 'raw-egg' | 'honey' | 'out-of-the-cold' | 'egg-core' | 'cool-filling' | 'steam' | 'hot-pot' | 'hot-fat' | 'boiling-water';

export interface Caution {
  readonly code: CautionCode;
  /** One to three sentences for the person at the bench. */
  readonly text: string;
  readonly source: string;
  readonly basis: Basis;
  /** Lines and steps it is about; empty for the whole formula. */
  readonly places: readonly Place[];
}

/** Stands after every list of cautions. */
export const LOCAL_RULES = 'These are reminders from public guidance. Local food rules come first.';

/** What heat ends the waiting. */
const HEATS: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'boil', 'fry', 'steam']);
const NOT_FOOD: ReadonlySet<StepKind> = new Set<StepKind>(['preheat']);
/** Under this share of a part, egg and milk are not what spoils it. */
const MATTERS = 0.02;
/** Dairy and egg as dry as this keep. */
const WET_PCT = 40;

/**
 * In the order a bake meets them. `timeline` gives lengths as placed, where there is one.
 */
export function cautionsFor(formula: ResolvedFormula, timeline?: Timeline): readonly Caution[] {
  const steps = allSteps(formula);
  return [
    ...rawFlour(formula),
    ...rawEgg(formula),
    ...honey(formula),
    ...outOfTheCold(formula, timeline),
    ...boiling(steps),
    ...steam(steps),
    ...hotPot(steps),
    ...hotFat(steps),
    ...eggCore(formula),
    ...coolFilling(formula, steps),
  ];
}

function rawFlour(formula: ResolvedFormula): readonly Caution[] {
  const has = formula.parts.some((part) => part.lines.some((line) => line.role === 'flour' || line.starterHydrationPct !== undefined));
  if (!has) return [];
  return [{
    code: 'raw-flour',
    text: 'Flour is raw food. Do not taste raw dough, batter or starter, and wash hands and tools after them.',
    source: RAW_FLOUR.source,
    basis: RAW_FLOUR.basis,
    places: [],
  }];
}

/** Said by the finding, too; whoever is handed a card sees no findings. */
function rawEgg(formula: ResolvedFormula): readonly Caution[] {
  const found = rawEggIn(formula);
  if (found.length === 0) return [];
  const safe = SAFETY.eggDishCelsius.value;
  return [{
    code: 'raw-egg',
    text:
      `Raw egg goes on after the heat, in the ${[...new Set(found.map(({ part }) => part.name))].join(' and the ')}. Not for small children, for who is pregnant, old or ill. ` +
      `Pasteurised egg is safe, and so is egg cooked to ${String(Math.round(safe))} C (${String(Math.round(fahrenheit(safe)))} F).`,
    source: SAFETY.eggDishCelsius.source,
    basis: SAFETY.eggDishCelsius.basis,
    places: found.map(({ step }) => step.place),
  }];
}

function honey(formula: ResolvedFormula): readonly Caution[] {
  const lines = formula.parts.flatMap((part) => part.lines).filter(({ name }) => /\bhoney\b/i.test(name));
  if (lines.length === 0) return [];
  return [{
    code: 'honey',
    text: 'There is honey in it: nothing for children under 12 months. What in honey makes infants ill can outlive the oven.',
    source: HONEY.source,
    basis: HONEY.basis,
    places: lines.map(({ place }) => place),
  }];
}

/** Egg, milk and their like in parts that stand warmer than a fridge for long: one caution, by the part that stands longest. */
function outOfTheCold(formula: ResolvedFormula, timeline: Timeline | undefined): readonly Caution[] {
  const standing = formula.parts.flatMap((part, index) => {
    const perishable = perishablesIn(part);
    const hours = warmHours(formula, stepsFrom(formula, part, index), timeline);
    return perishable.length > 0 && hours.high > SAFETY.outOfColdHours.value ? [{ part, perishable, hours }] : [];
  });
  const [longest] = [...standing].sort((x, y) => y.hours.high - x.hours.high);
  if (longest === undefined) return [];
  const { part, hours } = longest;
  const lines = standing.flatMap(({ perishable }) => perishable);
  const names = [...new Set(lines.map(({ name }) => name))].join(', ');
  const where = standing.length > 1 ? `, longest in the ${part.name}` : ` in the ${part.name}`;
  // Nobody reads a kitchen clock closer; outward, so that no standing is made shorter than it is.
  const [low, high] = [Math.floor(hours.low * 4 + 1e-6) / 4, Math.ceil(hours.high * 4 - 1e-6) / 4];
  const length = low < high ? `${hoursText(low)} to ${hoursText(high)}` : hoursText(high);
  return [{
    code: 'out-of-the-cold',
    text:
      `${capital(names)}${where}: above ${String(SAFETY.coldCelsius.value)} C for ${length} before the heat. Guidance for households allows 2 h ` +
      '(1 h above 32 C), for kitchens 4 h from the fridge. Start cold, or let what waits longer wait in the fridge.',
    source: `${SAFETY.outOfColdHours.source}; ${SAFETY.timeOnlyHours.source}`,
    basis: SAFETY.outOfColdHours.basis,
    places: lines.map(({ place }) => place),
  }];
}

function boiling(steps: readonly PlacedStep[]): readonly Caution[] {
  const places = steps.filter(({ node }) => node.step === 'boil').map(({ place }) => place);
  if (places.length === 0) return [];
  return [{
    code: 'boiling-water',
    text: 'Lower the pieces into boiling water, do not drop them, and stay with the pot.',
    source: 'common practice',
    basis: 'common practice, no source',
    places,
  }];
}

function steam(steps: readonly PlacedStep[]): readonly Caution[] {
  const places = steps.filter((step) => step.node.step === 'steam' || has(step, 'steam')).map(({ place }) => place);
  if (places.length === 0) return [];
  return [{
    code: 'steam',
    text:
      'Steam burns worse than hot air: open the oven away from face and arms, in dry gloves. Pour water only into a hot tray meant for it, ' +
      'never on glass, enamel or a hot stone.',
    source: `heat of vaporisation ${SAFETY.steamJoulesPerGram.value} J/g: ${SAFETY.steamJoulesPerGram.source}; H. McGee, On Food and Cooking, “Enamelware”; the rest common practice`,
    basis: 'read in part',
    places,
  }];
}

function hotPot(steps: readonly PlacedStep[]): readonly Caution[] {
  const places = steps.filter((step) => has(step, 'lid')).map(({ place }) => place);
  if (places.length === 0) return [];
  return [{
    code: 'hot-pot',
    text:
      'The pot and its lid are as hot as the oven: dry gloves, lift the lid away from you, and leave a glove on the lid afterwards. No cold water ' +
      'into hot enamel, and check that the knob of the lid stands the heat.',
    source: 'H. McGee, On Food and Cooking, “Enamelware” (quenched enamel cracks); the rest common practice',
    basis: 'read in part',
    places,
  }];
}

function hotFat(steps: readonly PlacedStep[]): readonly Caution[] {
  const places = steps.filter(({ node }) => node.step === 'fry').map(({ place }) => place);
  if (places.length === 0) return [];
  return [{
    code: 'hot-fat',
    text: 'Stay with hot fat and keep water away from it. If it burns: lid on, heat off, no water.',
    source: 'common practice',
    basis: 'common practice, no source',
    places,
  }];
}

/** A custard, or a dish bound with egg: its middle must get there. */
function eggCore(formula: ResolvedFormula): readonly Caution[] {
  const bound = formula.parts.filter((part) => part.kind === 'custard' || formula.kind === 'dish').filter((part) => part.lines.some((line) => line.role === 'egg'));
  if (bound.length === 0) return [];
  const safe = SAFETY.eggDishCelsius.value;
  const bakes = allSteps(formula).filter(({ node }) => node.step === 'bake');
  const short = bakes.filter((step) => {
    const core = coreOf(step);
    return core !== null && !isEggDishDone(core);
  });
  const written = short.map(coreOf).find((core) => core !== null);
  return [{
    code: 'egg-core',
    text:
      `Egg dishes are safe from ${Math.round(safe)} C (${Math.round(fahrenheit(safe))} F) in the middle.` +
      (written === undefined || written === null ? ' Measure there, not at the edge.' : ` This one bakes to ${String(Math.round(written))} C.`),
    source: SAFETY.eggDishCelsius.source,
    basis: SAFETY.eggDishCelsius.basis,
    places: short.length > 0 ? short.map(({ place }) => place) : bound.map(({ place }) => place),
  }];
}

/** Custards and fillings with egg or dairy after the oven. */
function coolFilling(formula: ResolvedFormula, steps: readonly PlacedStep[]): readonly Caution[] {
  const parts = formula.parts.filter((part) => (part.kind === 'custard' || part.kind === 'filling') && perishablesIn(part).length > 0);
  if (parts.length === 0) return [];
  const { hotCelsius, coolFirstCelsius, coldCelsius, coolFirstHours, coolAllHours } = SAFETY;
  return [{
    code: 'cool-filling',
    text:
      `If it is not eaten warm: from ${String(hotCelsius.value)} C down to ${String(coolFirstCelsius.value)} C within ${String(coolFirstHours.value)} h and to ` +
      `${String(coldCelsius.value)} C within ${String(coolAllHours.value)} h in all. Reheat leftovers to ${String(Math.round(SAFETY.reheatCelsius.value))} C.`,
    source: `${SAFETY.coolFirstHours.source}; ${SAFETY.reheatCelsius.source}`,
    basis: SAFETY.coolFirstHours.basis,
    places: [...parts.map(({ place }) => place), ...steps.filter(({ node }) => node.step === 'cool').map(({ place }) => place)],
  }];
}

// --- shared ---------------------------------------------------------------------------------------------------------

/** Lines of egg and wet dairy that are more than a trace of their part. */
function perishablesIn(part: ResolvedPart): readonly ResolvedLine[] {
  return part.lines.filter((line) => {
    if (!line.inDough || (line.role !== 'egg' && line.role !== 'dairy')) return false;
    if ((line.ingredient?.composition.water ?? 100) < WET_PCT) return false;
    return line.grams === null || part.grams === null || line.grams >= MATTERS * part.grams;
  });
}

/** The part's own steps, and those of the method from where it is taken in: from its `add`, else from `fill` for a filling, else from the start. */
function stepsFrom(formula: ResolvedFormula, part: ResolvedPart, index: number): readonly PlacedStep[] {
  if (index === formula.dough) return [...part.steps, ...formula.method];
  const wanted = part.name.trim().toLowerCase();
  const added = formula.method.findIndex((step) => step.node.details.some((detail) => detail.kind === 'add' && detail.name.text.trim().toLowerCase() === wanted));
  const usual = formula.method.findIndex(({ node }) => USUAL[part.kind]?.includes(node.step) === true);
  const from = added >= 0 ? added : usual;
  // What is made beside the dough and comes in nobody says where: not as early as the mixing, so nothing is claimed.
  if (from < 0) return part.kind === 'custard' || formula.kind === 'dish' || isTakenInByDough(formula, index) ? [...part.steps, ...formula.method] : part.steps;
  return [...part.steps, ...formula.method.slice(from)];
}

const USUAL: Readonly<Partial<Record<ResolvedPart['kind'], readonly StepKind[]>>> = { filling: ['fill'], glaze: ['glaze'], wash: ['glaze'], topping: ['glaze'] };

function isTakenInByDough(formula: ResolvedFormula, index: number): boolean {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  return dough?.lines.some((line) => line.part === index) ?? false;
}

/** Hours of the steps before the first heat that are warmer than a fridge, or not known to be as cold. */
function warmHours(formula: ResolvedFormula, steps: readonly PlacedStep[], timeline: Timeline | undefined): { readonly low: number; readonly high: number } {
  const heat = steps.findIndex(({ node }) => HEATS.has(node.step));
  let low = 0;
  let high = 0;
  for (const step of heat < 0 ? steps : steps.slice(0, heat)) {
    if (NOT_FOOD.has(step.node.step)) continue;
    const ambient = ambientOf(step, undefined, formula, undefined);
    const cold = ambient === null ? COLD_BY_NAME.has(step.node.step) : ambient <= SAFETY.coldCelsius.value;
    const hours = cold ? null : hoursOf(step, timeline);
    low += hours?.low ?? 0;
    high += hours?.high ?? 0;
  }
  return { low, high };
}

/** Without a temperature these still mean a fridge or a freezer. */
const COLD_BY_NAME: ReadonlySet<StepKind> = new Set<StepKind>(['retard', 'chill', 'freeze']);

function allSteps(formula: ResolvedFormula): readonly PlacedStep[] {
  return [...formula.parts.flatMap((part) => part.steps), ...formula.method];
}

function has(step: PlacedStep, kind: StepDetail['kind']): boolean {
  return step.node.details.some((detail) => detail.kind === kind);
}

function coreOf(step: PlacedStep): number | null {
  for (const detail of step.node.details) {
    if (detail.kind === 'until-core' && detail.temperature.kind === 'degrees') return detail.temperature.lowCelsius;
  }
  return null;
}

function hoursText(hours: number): string {
  const total = Math.round(hours * 60);
  const h = Math.floor(total / 60);
  const min = total % 60;
  return [h > 0 ? `${h} h` : '', min > 0 ? `${min} min` : ''].filter(Boolean).join(' ') || '0 min';
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
