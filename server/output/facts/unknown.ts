/** Why a number of a formula cannot be known: one sentence that names what is missing, and where. */
import { isReadable, quantityMiddle } from '../../../grammar';
import { unknownCompositions } from '../../core/formula/composition';
import { leavesOf } from '../../core/formula/contents';
import type { ResolvedFormula, ResolvedLine, Totals, Trouble } from '../../core/formula/model';
import { sourceText, type FormulaEntry } from '../entry';
import { lowered, named } from './words';

type Known = Pick<FormulaEntry, 'formula' | 'section'>;

/** `Not known: 3 tsp grains of paradise has no weight.` Undefined when every line has its weight and there is flour. */
export function whyUnknown({ formula, section }: Known): string | undefined {
  if (formula.lacksBase) return 'Not known: the formula that this one is based on is not to be found.';
  const lines = formula.parts.flatMap((part) => part.lines).filter((line) => line.grams === null && line.inDough);
  if (lines.length === 0) return withoutFlour(formula);
  const misread = lines.filter(({ source }) => source?.kind === 'ingredient' && !amountIsReadable(source));
  if (misread.length > 0) return `Not known: the amount of ${named([...new Set(misread.map(({ name }) => name))], 3)} cannot be read.`;
  const trouble = formula.troubles.map((each) => causeOf(each, formula)).find((words) => words !== undefined);
  if (trouble !== undefined) return `Not known: ${trouble}.`;
  const { makes } = formula;
  if (makes?.node.pieces !== undefined && quantityMiddle(makes.node.pieces) <= 0) return 'Not known: makes says no pieces.';
  if (makes?.node.each !== undefined && quantityMiddle(makes.node.each.quantity) <= 0) return 'Not known: makes says pieces of nothing.';
  const shown = unweighed({ formula, section }, lines);
  if (shown.length === 0) return `Not known: the weight of ${named(unweighedParts(formula), 3)} is missing.`;
  return `Not known: ${named(shown, 3)} ${shown.length === 1 ? 'has' : 'have'} no weight.`;
}

function withoutFlour({ kind, dough, parts, troubles }: ResolvedFormula): string | undefined {
  const hasLines = dough !== undefined && parts[dough]?.lines.some(({ inDough }) => inDough) === true;
  const flourGrams = parts.flatMap((part) => part.lines).reduce((sum, line) => sum + (line.part === undefined && line.inDough ? line.flourGrams : 0), 0);
  if (kind === 'dish' || !hasLines || flourGrams > 0) return undefined;
  const zero = troubles.find((trouble) => trouble.kind === 'flour-not-whole');
  return zero === undefined
    ? 'Not known: the shares of the flour, for no line of the dough is flour with a weight.'
    : `Not known: the shares of the flour, for the flours of ${zero.part} come to nothing.`;
}

function amountIsReadable({ amount }: Extract<ResolvedLine['source'], { kind: 'ingredient' }>): boolean {
  if (amount.kind === 'all') return true;
  const counted = 'bracket' in amount && amount.bracket !== undefined ? amount.bracket.quantity : amount.quantity;
  return counted === undefined || isReadable(counted);
}

/** What a trouble leaves unknown; undefined for those that leave nothing so, and for those that single lines tell better. */
function causeOf(trouble: Trouble, { makes }: ResolvedFormula): string | undefined {
  switch (trouble.kind) {
    case 'no-size': {
      const zero = makes?.node.each?.kind === 'volume' && quantityMiddle(makes.node.each.quantity) <= 0;
      return zero ? 'makes says tins of nothing' : `nothing fixes how much ${trouble.part} is made; give one line of it in grams, or say what the formula makes`;
    }
    case 'part-cycle':
      return trouble.names.length === 1 ? `${named(trouble.names)} takes itself in` : `${named(trouble.names)} need each other first`;
    case 'part-short':
      return trouble.kept === true ? `${trouble.name} keeps back more than it makes` : undefined;
    case 'share-of-nothing':
      return `${trouble.part} has shares and no weight`;
    case 'contradiction':
      // What to do about it is the finding's to say.
      return lowered(trouble.message.split(/[.;] /)[0] ?? '').replace(/\.$/, '');
    case 'flour-not-whole':
    case 'makes-disagrees':
    case 'part-missing':
    case 'part-unused':
    case 'part-twice':
    case 'unknown-ingredient':
    case 'needs-a-weight':
    case 'total-leaves-out':
      return undefined;
  }
}

/** The lines at fault as written. A part without a weight, or a share of a flour that has none, follows from the line that really lacks it. */
function unweighed({ formula, section }: Known, lines: readonly ResolvedLine[]): readonly string[] {
  const cause = formula.troubles.flatMap((trouble) => (trouble.kind === 'needs-a-weight' || trouble.kind === 'part-missing' ? [trouble.place] : []));
  const atFault = lines.filter(({ place, amountPlace }) => cause.some((at) => at.block === place.block && (at.start === amountPlace.start || (at.start >= place.start && at.end <= place.end))));
  const shown = (atFault.length > 0 ? atFault : lines.filter(({ part }) => part === undefined)).map((line) => (sourceText(section, line) ?? line.name).replace(/\s+/g, ' '));
  return [...new Set(shown)];
}

function unweighedParts({ parts, dough }: ResolvedFormula): readonly string[] {
  const missing = parts.filter((part, index) => part.yieldGrams === null && index !== dough);
  return missing.length > 0 ? missing.map(({ name }) => name) : ['a part'];
}

const MISSING = { water: 'water', salt: 'salt', sugars: 'sugar', fat: 'fat', protein: 'protein' } as const;

/** `Not known of moon cheese: its water, salt, sugar and fat.` One for each ingredient that keeps a total from being known. */
export function compositionsUnknown({ formula, totals }: { readonly formula: FormulaEntry['formula']; readonly totals: Totals }): readonly string[] {
  if (formula.kind === 'dish') return [];
  return unknownCompositions(leavesOf(formula), totals.flour_g).map(({ name, missing }) => `Not known of ${name}: its ${named(missing.map((each) => MISSING[each]))}.`);
}
