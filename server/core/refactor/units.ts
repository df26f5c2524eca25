/** Spoons, cups, ounces and Fahrenheit in grams and Celsius; and the noun of `makes` as its number asks. */
import { quantityMiddle, type Amount, type Temperature } from '../../../grammar';
import type { Edit } from '../checks/edits';
import { written } from '../checks/edits';
import { textAt, valuesIn, linesOf } from '../checks/walk';
import { trimmed } from '../checks/words';
import { placeOf } from '../formula/gather';
import type { Place, ResolvedLine, Section } from '../formula/model';
import { plural, singular } from '../scaling/nouns';
import { toGrams } from '../units/mass';
import type { Refactoring, Scene } from './refactoring';
import { inColumns, rangeText } from './writing';

export function otherUnits(scene: Scene): readonly Refactoring[] {
  return [...measureAtCursor(scene), ...temperatureAtCursor(scene), ...wholeInMetric(scene), ...nounOfMakes(scene)];
}

// --- measures -----------------------------------------------------------------------------------------------------------

/** The weight of the measure or the ounces at the cursor: beside a measure, or in its place. */
function measureAtCursor({ section, formula, at }: Scene): readonly Refactoring[] {
  const line = linesWithSource(formula.parts.flatMap(({ lines }) => lines)).find(({ place }) => place.block === at.block && at.start >= place.start && at.end <= place.end);
  const weight = line && weightOf(line, line.source.amount);
  if (line === undefined || weight === undefined) return [];
  const { amount } = line.source;
  const measure = textAt(section, line.amountPlace).replace(/\s+/g, ' ');
  const beside = `${measure} (${weight})`;
  const rewrite = (id: string, title: string, newText: string): Refactoring => ({
    id, kind: 'rewrite', title, edits: () => inColumns(section, [{ place: line.amountPlace, newText }]),
  });
  return [
    ...(amount.kind === 'volume' ? [rewrite('weight-beside', `Write the weight beside it: ${beside}`, beside)] : []),
    rewrite('by-weight', `Write ${weight} for ${measure}`, weight),
  ];
}

type WithAmount = ResolvedLine & { readonly source: { readonly amount: Amount } };

function linesWithSource(lines: readonly ResolvedLine[]): readonly WithAmount[] {
  return lines.filter((line): line is WithAmount => line.source?.kind === 'ingredient');
}

/** `4.5 g` for a measure or an imperial weight; undefined for what is in grams already, or says its weight, or has none. */
function weightOf(line: ResolvedLine, amount: Amount): string | undefined {
  const grams = (line.listed ?? line).grams;
  if (amount.kind === 'volume' && amount.bracket === undefined && grams !== null && grams > 0) {
    const perUnit = grams / quantityMiddle(amount.quantity);
    return `${rangeText(amount.quantity, (value) => toThreeFigures(value * perUnit))} g`;
  }
  if (amount.kind !== 'mass' || (amount.unit !== 'oz' && amount.unit !== 'lb') || toGrams(amount) <= 0) return undefined;
  const perUnit = toGrams(amount) / quantityMiddle(amount.quantity);
  return `${rangeText(amount.quantity, (value) => toThreeFigures(value * perUnit))} g`;
}

/** Three figures, and never less than a scale shows: 113 g, 14.2 g, 4.5 g, 1240 g. */
function toThreeFigures(grams: number): string {
  return grams >= 100 || grams < 1 ? written(grams, 'g') : String(Number(grams.toPrecision(3)));
}

// --- temperatures -----------------------------------------------------------------------------------------------------

interface InFahrenheit {
  readonly place: Place;
  readonly newText: string;
}

function temperatureAtCursor({ section, at }: Scene): readonly Refactoring[] {
  return temperaturesIn(section)
    .filter(({ place }) => place.block === at.block && at.start >= place.start && at.end <= place.end)
    .map((one) => ({ id: 'celsius', kind: 'rewrite', title: `Write ${one.newText} for ${textAt(section, one.place)}`, edits: () => [one] }));
}

/** Oven heat in whole degrees, the rest in halves: nobody reads a thermometer closer. */
function temperaturesIn(section: Section): readonly InFahrenheit[] {
  const heads = section.blocks.map(({ head }, block) => ({ block, node: head.node as object }));
  const nodes = [...heads, ...linesOf(section).map(({ block, line }) => ({ block, node: line.node as object }))];
  const found = nodes.flatMap(({ block, node }) => valuesIn(node).filter(isFahrenheit).map((temperature): InFahrenheit => {
    const { lowCelsius, highCelsius } = temperature;
    const degrees = (celsius: number): string => (celsius >= 100 ? trimmed(celsius, 0) : trimmed(Math.round(celsius * 2) / 2, 1));
    const newText = lowCelsius === highCelsius ? `${degrees(lowCelsius)} C` : `${degrees(lowCelsius)} to ${degrees(highCelsius)} C`;
    return { place: placeOf(block, temperature), newText };
  }));
  return found.filter(({ place }) => section.blocks[place.block]?.head.node.kind !== 'record');
}

function isFahrenheit(value: object): value is Extract<Temperature, { kind: 'degrees' }> {
  return 'kind' in value && value.kind === 'degrees' && 'unit' in value && value.unit === 'F';
}

// --- all of a formula ---------------------------------------------------------------------------------------------------

/** At the head of a formula or of one of its parts: everything that is not metric. */
function wholeInMetric({ section, formula, at }: Scene): readonly Refactoring[] {
  const head = section.blocks[at.block]?.head;
  if (head === undefined || at.start > head.end) return [];
  const weights = linesWithSource(formula.parts.flatMap(({ lines }) => lines)).flatMap((line): readonly Edit[] => {
    // Millilitres are metric.
    const { amount } = line.source;
    const weight = amount.kind === 'volume' && (amount.unit === 'ml' || amount.unit === 'l') ? undefined : weightOf(line, amount);
    return weight === undefined ? [] : [{ place: line.amountPlace, newText: weight }];
  });
  const edits = [...weights, ...temperaturesIn(section)];
  return edits.length === 0 ? [] : [{ id: 'metric', kind: 'rewrite', title: 'Write this formula in grams and Celsius', edits: () => inColumns(section, edits) }];
}

// --- makes ----------------------------------------------------------------------------------------------------------------

/** `1 loaf`, `2 loaves`: the noun as its number asks. */
function nounOfMakes({ section, formula, at }: Scene): readonly Refactoring[] {
  const { place, node: { pieces, noun } = {} } = formula.makes ?? {};
  if (place === undefined || pieces === undefined || noun === undefined || noun.quoted) return [];
  if (place.block !== at.block || at.start < place.start || at.end > place.end) return [];
  const nounPlace = placeOf(place.block, noun);
  const isOne = (pieces.high ?? pieces.low).value <= 1;
  const wanted = isOne ? singular(noun.text) : plural(noun.text);
  // Only where the other form leads back, and the word is written as it is read.
  const leadsBack = (isOne ? plural(wanted) : singular(wanted)) === noun.text;
  if (wanted === noun.text || !leadsBack || textAt(section, nounPlace) !== noun.text) return [];
  return [{ id: 'noun', kind: 'rewrite', title: `Write “${wanted}” for “${noun.text}”`, edits: () => [{ place: nounPlace, newText: wanted }] }];
}
