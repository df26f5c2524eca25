/** Of several ways to say one amount, the one that the draft weighs by; the others are kept as words. */
import { short, type ReadAmount } from './amounts';
import { MOST_PIECES, PACKET_GRAMS, STICK_OUNCES } from './constants';

export interface ChosenAmount {
  /** `450 g`, `1 cup (120 g)`, `2 to 3 tbsp`, `3` */
  readonly bake: string;
  /** What so many pieces weigh, to stand behind their name: `220 g` of `4 eggs (220 g)`. */
  readonly weight?: string;
  /** The ways of saying it that are not in `bake`. */
  readonly others: readonly ReadAmount[];
  readonly decide: readonly string[];
}

/** The amount to weigh by: grams before ounces, a weight before a volume, a volume before a share or a count. Undefined where there is none. */
export function chooseAmount(amounts: readonly ReadAmount[]): ChosenAmount | undefined {
  const of = (kind: NonNullable<ReadAmount['measure']>['kind']): ReadAmount | undefined => amounts.find(({ measure }) => measure?.kind === kind);
  const count = amounts.find(({ measure }) => measure === undefined);
  const masses = amounts.filter(({ measure }) => measure?.kind === 'mass');
  const mass = masses.find(({ measure }) => measure?.kind === 'mass' && measure.unit !== 'oz' && measure.unit !== 'lb') ?? masses[0];
  const volumes = amounts.filter(({ measure }) => measure?.kind === 'volume');
  const volume = volumes.find(isMetric) ?? volumes[0];
  const container = amounts.find(({ measure }) => measure?.kind === 'piece');
  if (mass !== undefined) return withMass(mass, amounts, volumes[0] ?? count, container);
  const main = volume ?? of('stick') ?? of('packet') ?? of('share') ?? of('pinch') ?? count;
  // A handful, or two cloves, weigh nobody knows what.
  if (main === undefined) return undefined;
  return { bake: written(main), others: amounts.filter((one) => one !== main), decide: decisionsOn(main, volumes) };
}

/** A weight counts before any other measure. Behind a spoon, a cup or a number it takes its place in brackets. */
function withMass(mass: ReadAmount, amounts: readonly ReadAmount[], measured: ReadAmount | undefined, container: ReadAmount | undefined): ChosenAmount {
  const [first] = amounts;
  const decide = [...decisionsOn(mass, [])];
  if (container?.measure?.kind === 'piece' && container.measure.holds && container.lowValue > 1 && container.high === undefined && mass.high === undefined) {
    const all = container.lowValue * mass.lowValue;
    decide.push(`is that ${written(mass)} each, as it is reckoned here, or ${written(mass)} in all?`);
    return { bake: written({ ...mass, low: short(all), lowValue: all }), others: [mass, ...amounts.filter((one) => one !== mass)], decide };
  }
  const isFirst = first !== undefined && measured !== undefined && first === measured && !isMetric(measured) && isPlainUnit(measured) && measured.vague.length === 0;
  if (!isFirst) return { bake: written(mass), others: amounts.filter((one) => one !== mass), decide };
  if (measured.measure === undefined) return { bake: written(measured), weight: written(mass), others: amounts.filter((one) => one !== mass && one !== measured), decide };
  return { bake: `${written(measured)} (${written(mass)})`, others: amounts.filter((one) => one !== mass && one !== measured), decide };
}

function isMetric({ measure }: ReadAmount): boolean {
  return measure?.kind === 'volume' && (measure.unit === 'ml' || measure.unit === 'l');
}

/** The language has it as it stands. */
function isPlainUnit({ measure }: ReadAmount): boolean {
  return measure === undefined || (measure.kind === 'volume' && measure.times === 1);
}

/** Whether the draft says the amount otherwise than the source, so that the words of the source are kept beside it. */
export function isConverted({ measure, isComputed }: ReadAmount): boolean {
  return isComputed || measure?.kind === 'stick' || measure?.kind === 'packet' || (measure?.kind === 'volume' && measure.times !== 1);
}

/** As the language writes it. */
export function written(amount: ReadAmount): string {
  const { low, high, measure } = grammatical(amount);
  const numbers = high === undefined ? low : `${low} to ${high}`;
  if (measure === undefined) return numbers;
  switch (measure.kind) {
    case 'mass': return `${numbers} ${measure.unit}`;
    case 'volume': return `${times(amount, measure.times)} ${measure.unit}`;
    case 'share': return `${numbers} %`;
    case 'stick': return `${times(amount, STICK_OUNCES.value)} oz`;
    case 'packet': return `${times(amount, PACKET_GRAMS.value)} g`;
    case 'pinch': return amount.highValue === 1 ? 'pinch' : `${numbers} pinches`;
    case 'piece': case 'vague': return numbers;
  }
}

/** `1,250 kg` is a kilo and a quarter where commas stand in fractions; nobody weighs a ton. */
function grammatical(amount: ReadAmount): ReadAmount {
  const { grouped, measure, lowValue, high } = amount;
  if (!grouped || high !== undefined || lowValue < 1000 || !(measure?.kind === 'mass' && measure.unit === 'kg' || measure?.kind === 'volume' && measure.unit !== 'ml')) return amount;
  return { ...amount, low: short(lowValue / 1000), lowValue: lowValue / 1000, highValue: lowValue / 1000 };
}

function times(amount: ReadAmount, factor: number): string {
  const { low, high, lowValue, highValue } = grammatical(amount);
  const one = (text: string, value: number): string => (factor === 1 ? text : short(value * factor));
  return high === undefined ? one(low, lowValue) : `${one(low, lowValue)} to ${one(high, highValue)}`;
}

function decisionsOn(amount: ReadAmount, volumes: readonly ReadAmount[]): readonly string[] {
  const { measure, grouped, lowValue, vague } = amount;
  if (measure?.kind === 'packet' && volumes.length === 0) return [`how much is in a packet? ${PACKET_GRAMS.value} g of dry yeast is taken for granted.`];
  if (measure === undefined && lowValue >= MOST_PIECES.value) return [`${written(amount)} of what? A unit is missing.`];
  if (grouped && lowValue < 10 && measure?.kind === 'mass' && measure.unit === 'g') return [`is it ${short(lowValue)} g or ${short(lowValue * 1000)} g?`];
  if (vague.some((word) => /^(?:heap|round|gener|scant|big)/i.test(word))) return ['such a spoonful has no weight of its own: weigh it.'];
  return [];
}
