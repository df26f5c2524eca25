/**
 * A formula for programs that collect recipes: JSON-LD in the vocabulary of schema.org (Recipe, release 30).
 *
 * Only what is known is in it: no date, no author and no diet that nobody wrote. What the vocabulary has no word for, allergens and
 * cautions, is told in the description.
 */
import type { StepKind } from '../../../grammar';
import { nutritionOf, type Nutrients } from '../../core/facts';
import type { Timeline, TimelineStep } from '../../core/timeline/model';
import { singular } from '../../core/scaling/nouns';
import { piecesWords, textsOf } from '../card/card';
import { stepsOf } from '../card/method';
import { NOT_KNOWN, type Card, type CardLine, type MethodStep } from '../card/model';
import { unhurried } from '../card/when';
import type { FormulaEntry } from '../entry';
import { isSliced } from '../facts/nutrition';
import { decimals, weight } from '../numbers';
import { json } from '../json';
import type { Placed } from '../schedule-words';
import { printable } from '../width';
import { isoDuration } from './iso-duration';

const CONTEXT = 'https://schema.org';
const MINUTE_MS = 60_000;

export interface RecipeInput {
  readonly entry: FormulaEntry;
  readonly card: Card;
  /** By a time that somebody asked for. Without one the lengths are those written, of a range its middle. */
  readonly timeline: Placed | undefined;
}

/** One recipe, or a graph of several. `<` is written as an escape, so that the text can stand in a page as it is. */
export function recipesJsonLd(inputs: readonly RecipeInput[]): string {
  const [first] = inputs;
  const recipes = inputs.map(recipeOf);
  const data = inputs.length === 1 && first !== undefined ? { '@context': CONTEXT, ...recipeOf(first) } : { '@context': CONTEXT, '@graph': recipes };
  return json(data).replaceAll('<', '\\u003c');
}

function recipeOf({ entry, card, timeline }: RecipeInput): Readonly<Record<string, unknown>> {
  const { formula } = entry;
  const [version] = textsOf(entry, 'version');
  const sources = textsOf(entry, 'source');
  const authors = textsOf(entry, 'author');
  return {
    '@type': 'Recipe',
    name: card.title,
    description: descriptionOf(card),
    ...(authors.length > 0 && { author: authors.map((name) => ({ '@type': 'Person', name })) }),
    ...(sources.length > 0 && { isBasedOn: sources.map((name) => ({ '@type': 'CreativeWork', name })) }),
    ...(version !== undefined && { version }),
    ...yieldOf(entry),
    ...(formula.styles.length > 0 && { keywords: printable(formula.styles.map(({ text }) => text).join(', ')) }),
    ...timesOf(timeline ?? unhurried(formula)),
    ...(card.parts.length + card.besides.length > 0 && { recipeIngredient: ingredientsOf(card) }),
    ...(card.method.length > 0 && { recipeInstructions: card.method.map(({ name, steps }) => ({
      '@type': 'HowToSection', name, itemListElement: steps.flatMap((step) => textsOfStep(step, '')).map((text) => ({ '@type': 'HowToStep', text })),
    })) }),
    ...toolsOf(entry),
    ...nutritionFor(entry),
  };
}

/** What there is to say in a paragraph: the notes, and what must not get lost. */
function descriptionOf({ yield: made, notes, allergens, cautions, localRules }: Card): string {
  const contains = allergens.map(({ label, value }) => `${label}: ${value}.`);
  return [
    ...(made === '' ? [] : [`${made}.`]), ...notes.map((note) => (/[.!?]$/.test(note) ? note : `${note}.`)), ...contains, ...cautions, ...(cautions.length > 0 ? [localRules] : []),
  ].join(' ');
}

function yieldOf(entry: FormulaEntry): Readonly<Record<string, unknown>> {
  const { formula: { serves, kind }, totals } = entry;
  const words = piecesWords(entry) ?? (serves === null ? undefined : `${decimals(serves, 1)} servings`)
    ?? (kind === 'formula' && totals.dough_g !== null ? `${weight(totals.dough_g)} of dough` : undefined);
  return words === undefined ? {} : { recipeYield: words };
}

/** Weight first, spoons and cups in brackets, then what it is for where there are several parts. */
function ingredientsOf({ parts, besides }: Card): readonly string[] {
  const words = ({ weight: weighed, name, home, remarks }: CardLine, part: string | undefined): string => {
    const measured = weighed === NOT_KNOWN ? [home ?? '', name] : [weighed, name, home === undefined ? '' : `(${home})`];
    return [measured.filter((each) => each !== '').join(' '), ...remarks, ...(part === undefined ? [] : [`for the ${part}`])].join(', ');
  };
  return [
    ...parts.flatMap(({ name, lines }) => lines.filter(({ isPart }) => !isPart).map((line) => words(line, parts.length > 1 ? name.toLowerCase() : undefined))),
    ...besides.map((line) => words(line, undefined)),
  ];
}

/** A step and what happens inside it, each a sentence. */
function textsOfStep({ name, takes, words, clock, inside }: MethodStep, during: string): readonly string[] {
  const head = during === '' ? name : `During the ${during}: ${name.toLowerCase()}`;
  const text = `${[`${head}${takes === '' ? '' : ` ${takes}`}`, words].filter((each) => each !== '').join(', ')}${clock === undefined ? '' : ` (${clock})`}.`;
  return [text, ...inside.flatMap((step) => textsOfStep(step, name.toLowerCase()))];
}

const HEATS: readonly StepKind[] = ['bake', 'boil', 'fry', 'steam'];

/**
 * `prepTime` is what hands do before and between, `cookTime` what the heat takes, `totalTime` from the first hand to ready, fermentation
 * in it. Where a rise or a bake has no length written, the times it is in are left out; a fold or a mixing counts with its usual length.
 */
function timesOf(timeline: Timeline): Readonly<Record<string, unknown>> {
  if (timeline.kind !== 'placed') return {};
  const { steps, startMs, readyMs } = timeline;
  const isHeat = ({ kind }: TimelineStep): boolean => HEATS.includes(kind);
  const sum = (some: readonly TimelineStep[]): number => some.reduce((total, step) => total + step.endMs - step.startMs, 0) / MINUTE_MS;
  const heats = steps.filter(isHeat);
  const work = steps.filter((step) => step.handsOn && !isHeat(step));
  return {
    ...(work.length > 0 && { prepTime: isoDuration(sum(work)) }),
    ...(heats.length > 0 && !heats.some(({ assumed }) => assumed) && { cookTime: isoDuration(sum(heats)) }),
    ...(!steps.some((step) => step.assumed && (isHeat(step) || !step.handsOn) && step.kind !== 'preheat') && { totalTime: isoDuration((readyMs - startMs) / MINUTE_MS) }),
  };
}

function toolsOf({ formula }: FormulaEntry): Readonly<Record<string, unknown>> {
  const steps = stepsOf(formula);
  const details = steps.flatMap(({ node }) => node.details);
  const tools = [
    'scale',
    ...(details.some((detail) => detail.kind === 'by' && detail.how === 'mixer') ? ['mixer'] : []),
    ...(formula.yield.tinMillilitres === null ? [] : ['tin']),
    ...(details.some(({ kind }) => kind === 'lid') ? ['pot with a lid'] : []),
    ...(details.some(({ kind }) => kind === 'until-core') ? ['probe thermometer'] : []),
    ...(steps.some(({ node }) => node.step === 'bake') ? ['oven'] : []),
  ];
  return formula.parts.length === 0 ? {} : { tool: tools.map((name) => ({ '@type': 'HowToTool', name })) };
}

// --- nutrition --------------------------------------------------------------------------------------------------------

/** Of a slice where the bread is sliced, else of a piece, else of 100 g. Figures that are not known are left out. */
function nutritionFor({ formula, totals, sheet, label }: FormulaEntry): Readonly<Record<string, unknown>> {
  const nutrition = nutritionOf(formula, totals, sheet);
  if (nutrition === null) return {};
  const { noun, pieces } = formula.yield;
  const isUs = label?.labelRounding === 'us';
  if (isSliced(formula)) return informationOf(`1 slice (${weight(nutrition.sliceGrams)})`, nutrition.perSlice, isUs);
  if (nutrition.perPiece === null) return informationOf('100 g', nutrition.per100g, isUs);
  const count = pieces ?? formula.serves;
  const what = pieces === null ? 'serving' : printable(singular(noun));
  return informationOf(`1 ${what}${count === null || count <= 0 ? '' : ` (${weight(nutrition.bakedGrams / count)})`}`, nutrition.perPiece, isUs);
}

/** By the rules of the European Union, or of the United States where labels are rounded so: there carbohydrate has the fibre in it. */
function informationOf(servingSize: string, n: Nutrients, isUs: boolean): Readonly<Record<string, unknown>> {
  const figures = {
    calories: energy(isUs ? n.energyKcalUs : n.energyKcal),
    fatContent: mass(n.fat),
    saturatedFatContent: mass(n.saturated),
    carbohydrateContent: mass(isUs ? n.carbohydrateTotal : n.carbohydrate),
    sugarContent: mass(n.sugars),
    fiberContent: mass(n.fibre),
    proteinContent: mass(n.protein),
    sodiumContent: n.sodiumMg === null ? undefined : `${decimals(n.sodiumMg, 0)} mg`,
  };
  const known = Object.entries(figures).filter(([, value]) => value !== undefined);
  return known.length === 0 ? {} : { nutrition: { '@type': 'NutritionInformation', servingSize, ...Object.fromEntries(known) } };
}

/** `120 kcal`: an Energy of the vocabulary is a number and a unit. */
export function energy(kcal: number | null): string | undefined {
  return kcal === null ? undefined : `${decimals(kcal, 0)} kcal`;
}

/** `24 g`: so is a Mass. */
export function mass(grams: number | null): string | undefined {
  return grams === null ? undefined : `${decimals(grams, 1)} g`;
}
