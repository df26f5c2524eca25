/** One sentence of a method as steps: only what it says clearly. */
import type { StepKind } from '../../../grammar';
import { bakesIn } from './bakes';
import { durationAt, durationWords, type ReadDuration } from './durations';
import { foldsIn } from './folds';
import { coreIn, inCelsius, temperaturesIn, type Warmth } from './warmth';
import { isSign, isWord, tokensOf, type Token } from './tokens';
import { anchorsOf, type Anchor, type Doing } from './verbs';

/** What earlier sentences of the method have said. */
export interface SoFar {
  /** The pieces are shaped: a rise is a proof now. */
  readonly isShaped: boolean;
  /** It has risen once. */
  readonly hasRisen: boolean;
  /** How hot the oven is: `232 C`. */
  readonly oven: string | undefined;
  /** What is made: a preferment ripens where a dough rises. */
  readonly of: 'dough' | 'preferment' | 'other';
}

export interface Step {
  /** `bulk 4 h at 25 C` */
  readonly bake: string;
  readonly kind: StepKind;
  readonly folds: readonly string[];
}

export interface SentenceReading {
  readonly steps: readonly Step[];
  /** Folds for a bulk that an earlier sentence told of. */
  readonly folds: readonly string[];
  /** What it leaves open. */
  readonly decide: readonly string[];
  readonly soFar: SoFar;
}

/** Sentences that tell of a choice, a warning or a case, not of what is done. */
const NO_ORDER = /^(?:if|you can|you could|you may|alternatively|optionally|optional|note|tip|when|once|as soon as|while|unless|otherwise|instead)\b/i;
const NOT = ['not', "don't", 'don’t', 'never', 'avoid', 'without', 'needn’t', "needn't", 'optional', 'optionally'];
/** Nothing is said of them without a time. */
const NEEDS_TIME = new Map<Doing, string>([
  ['bulk', 'how long is this rise?'], ['proof', 'how long is this rise?'], ['rise', 'how long is this rise?'], ['retard', 'how long is it in the fridge?'],
  ['autolyse', 'how long does it stand?'], ['rest', ''], ['ripen', 'how long does it ripen?'], ['bake', 'how long is it baked?'], ['cool', ''], ['soak', ''], ['boil', ''],
  ['fry', ''], ['chill', ''], ['freeze', ''], ['thaw', ''], ['whisk', ''],
]);
const MOST_TOKENS = 400;

export function readSentence(sentence: string, soFar: SoFar): SentenceReading {
  const nothing: SentenceReading = { steps: [], folds: [], decide: [], soFar };
  const tokens = tokensOf(sentence);
  if (tokens.length > MOST_TOKENS) return nothing;
  const oven = ovenIn(tokens) ?? soFar.oven;
  const isNegated = tokens.some((token, index) => isWord(token, ...NOT) && !(isWord(token, 'without') && tokens.slice(index + 1, index + 4).some((one) => isWord(one, 'lid', 'steam'))));
  if (NO_ORDER.test(sentence) || isNegated) return { ...nothing, soFar: { ...soFar, oven } };

  const folds = foldsIn(tokens);
  const anchors = anchorsOf(tokens);
  const steps: Step[] = [];
  const decide: string[] = [];
  let isShaped = soFar.isShaped || isInTin(tokens);
  anchors.forEach((anchor, order) => {
    const doing = settled(anchor, tokens, { ...soFar, isShaped });
    if (doing === 'shape') isShaped = true;
    const before = anchors[order - 1];
    if (doing === 'bake') {
      if (before?.doing === 'bake') return;
      const end = anchors.slice(order).find((one) => one.doing !== 'bake')?.index ?? tokens.length;
      const bakes = bakesIn(tokens.slice(before === undefined ? 0 : anchor.index, end), soFar.oven, coreIn(tokens));
      steps.push(...bakes.map((bake): Step => ({ kind: 'bake', bake, folds: [] })));
      if (bakes.length === 0) decide.push(NEEDS_TIME.get('bake') ?? '');
      return;
    }
    const clause = tokens.slice(before === undefined ? 0 : anchor.index, anchors[order + 1]?.index ?? tokens.length);
    const found = stepOf(doing, clause, soFar.oven);
    // A preferment is stirred and left: the stirring is no step of its own.
    if (doing === 'mix' && soFar.of !== 'dough' && anchors.length > 1) return;
    // `During the bulk, fold every 40 min`: the bulk was told of before.
    if (found === undefined && doing === 'bulk' && folds.length > 0) return;
    if (found === undefined) decide.push(doing === 'preheat' ? 'how hot is the oven?' : (NEEDS_TIME.get(doing) ?? ''));
    else steps.push({ kind: doing, bake: found, folds: doing === 'bulk' ? folds : [] });
  });
  const scale = degreesWithoutScale(tokens);
  if (scale !== undefined) decide.push(scale);
  const bakesOn = anchors.length === 0 ? moreBaking(tokens, soFar) : [];
  steps.push(...bakesOn);
  if (anchors.length === 0 && soFar.of !== 'dough') steps.push(...waiting(tokens, soFar.of));
  const hasBulk = steps.some(({ kind }) => kind === 'bulk');
  return {
    steps: oneOfEach(steps), folds: hasBulk ? [] : folds, decide: [...new Set(decide.filter((question) => question !== ''))], soFar: { ...soFar, isShaped, oven, hasRisen: soFar.hasRisen || hasBulk },
  };
}

/** `a 375 degree oven` */
function degreesWithoutScale(tokens: readonly Token[]): string | undefined {
  const at = tokens.findIndex((token, index) => token.kind === 'number' && token.value >= 100 && (isWord(tokens[index + 1], 'degree', 'degrees') || isSign(tokens[index + 1], '°'))
    && temperaturesIn(tokens.slice(index, index + 4)).length === 0);
  return at < 0 ? undefined : `is ${tokens[at]?.text ?? ''} in C or in F?`;
}

/** `Uncover and give it 25 more minutes`: a lid and a time, and nothing else is done. */
function moreBaking(tokens: readonly Token[], { isShaped, oven }: SoFar): readonly Step[] {
  const saysLid = tokens.some((token) => isWord(token, 'uncover', 'uncovered', 'lid'));
  return saysLid && isShaped && oven !== undefined ? bakesIn(tokens, oven, coreIn(tokens)).map((bake): Step => ({ kind: 'bake', bake, folds: [] })) : [];
}

/** `16 h at 25 C`, said of a preferment or a soaker. */
function waiting(tokens: readonly Token[], of: SoFar['of']): readonly Step[] {
  const kind = of === 'preferment' ? 'ripen' : 'rest';
  const bake = durationAt(tokens, 0) === undefined ? undefined : stepOf(kind, tokens, undefined);
  return bake === undefined ? [] : [{ kind, bake, folds: [] }];
}

/** Two words for one thing in a sentence are one step: `mix until combined, then mix`. */
function oneOfEach(steps: readonly Step[]): readonly Step[] {
  return steps.filter(({ bake }, index) => bake.includes(' ') || steps.findIndex((other) => other.bake === bake) === index);
}

/** The kind of step that a doing is here: where it happens, and what was done before, say which rise it is. */
function settled({ doing, index }: Anchor, tokens: readonly Token[], { isShaped, hasRisen, of }: SoFar): StepKind {
  const waits = doing === 'rise' || doing === 'rest' || doing === 'bulk' || doing === 'proof';
  if (waits && of === 'preferment') return 'ripen';
  if (waits && of === 'other') return 'rest';
  if (waits && tokens.slice(index, index + 16).some((token) => isWord(token, 'fridge', 'refrigerator', 'refrigerate'))) return 'retard';
  if (doing !== 'rise') return doing;
  const isAgain = tokens.some((token) => isWord(token, 'again')) || (hasRisen && isWord(tokens[index], 'proof', 'prove'));
  return isShaped || isAgain ? 'proof' : 'bulk';
}

/** What is rolled, tied or in its tin is shaped, whether that is called so or not. */
function isInTin(tokens: readonly Token[]): boolean {
  if (tokens.some((token) => isWord(token, 'tie', 'braid', 'plait', 'roll', 'form', 'coil'))) return !tokens.some((token) => isWord(token, 'fold', 'folds'));
  const into = tokens.findIndex((token) => isWord(token, 'into', 'in'));
  return into >= 0 && tokens.slice(into, into + 6).some((token) => isWord(token, 'tin', 'tins', 'basket', 'baskets', 'banneton', 'bannetons', 'mould', 'moulds', 'pan', 'pans'));
}

/** The step of a clause; undefined where it lacks what it needs. */
function stepOf(kind: StepKind, clause: readonly Token[], oven: string | undefined): string | undefined {
  const duration = durationIn(clause);
  if (duration === undefined && NEEDS_TIME.has(kind)) return undefined;
  const warmth = temperaturesIn(clause).find((one) => fits(kind, one));
  const temperature = warmth === undefined ? (kind === 'preheat' ? oven : undefined) : inCelsius(warmth);
  if (kind === 'preheat' && temperature === undefined) return undefined;
  const how = kind === 'mix' || kind === 'knead' ? byWhat(clause) : '';
  return `${kind}${duration === undefined ? '' : ` ${durationWords(duration)}`}${temperature === undefined ? '' : ` at ${temperature}`}${how}${kind === 'bulk' || kind === 'proof' ? growth(clause) : ''}`;
}

function fits(kind: StepKind, { lowCelsius, highCelsius }: Warmth): boolean {
  if (kind === 'preheat') return lowCelsius >= 60 && highCelsius <= 400;
  if (kind === 'freeze') return highCelsius <= 0;
  return lowCelsius >= -1 && highCelsius <= 50 && ['bulk', 'proof', 'retard', 'ripen', 'rest', 'autolyse', 'chill', 'soak'].includes(kind);
}

/** `until it has grown by 60 %` */
function growth(clause: readonly Token[]): string {
  const at = clause.findIndex((token, index) => isWord(token, 'by') && clause[index + 1]?.kind === 'number' && isSign(clause[index + 2], '%'));
  return at < 0 ? '' : `, until volume ${clause[at + 1]?.text ?? ''} %`;
}

/** The first way that is told: `by machine, or by hand` is by mixer. */
function byWhat(clause: readonly Token[]): string {
  const way = clause.find((token, index) => isWord(token, 'mixer') || (isWord(token, 'hand', 'machine') && isWord(clause[index - 1], 'by')));
  return way === undefined ? '' : isWord(way, 'hand') ? ', by hand' : ', by mixer';
}

/** The first length of time that is none of folds, and not how long after something. */
function durationIn(clause: readonly Token[]): ReadDuration | undefined {
  for (let index = 0; index < clause.length; index += 1) {
    const found = durationAt(clause, index);
    if (found === undefined) continue;
    const before = clause[index - 1];
    const isOther = isWord(before, 'every', 'each', 'after', 'first', 'last', 'within') || isWord(clause[index - 2], 'after', 'every')
      || isWord(clause[found.next], 'apart', 'after', 'old') || (index < 3 && isWord(clause[found.next], 'before'));
    if (!isOther) return found.value;
    index = found.next - 1;
  }
  return undefined;
}

/** How hot the oven is from here on: `Lower the oven to 215 C`, `Heat the oven to 450F`. */
function ovenIn(tokens: readonly Token[]): string | undefined {
  if (!tokens.some((token) => isWord(token, 'oven', 'heat', 'preheat', 'bake', 'temperature'))) return undefined;
  const hot = temperaturesIn(tokens).filter(({ lowCelsius, isCore }) => lowCelsius >= 120 && !isCore).at(-1);
  return hot && inCelsius(hot);
}
