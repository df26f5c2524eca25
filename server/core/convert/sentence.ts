/** One sentence of a method as steps: only what it says clearly. */
import type { StepKind } from '../../../grammar';
import { bakesIn } from './bakes';
import { durationAt, durationWords, type ReadDuration } from './durations';
import { foldsIn } from './folds';
import { timeLeft } from './left-times';
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
/** Nobody mixes a dough for as long: that is how long it is left. */
const LONGEST_MIXING = 60;
const LONGEST_REST = 4 * 60;
const NO_HEAT = 'how hot is the oven?';
const MOST_TOKENS = 400;

export function readSentence(sentence: string, soFar: SoFar): SentenceReading {
  const nothing: SentenceReading = { steps: [], folds: [], decide: [], soFar };
  const tokens = tokensOf(sentence);
  if (tokens.length > MOST_TOKENS) return nothing;
  const oven = ovenIn(tokens) ?? soFar.oven;
  const isNegated = tokens.some((token, index) => isWord(token, ...NOT) && !isAboutLid(tokens, index));
  if (NO_ORDER.test(sentence) || isNegated) return { ...nothing, soFar: { ...soFar, oven } };

  const folds = foldsIn(tokens);
  const anchors = anchorsOf(tokens);
  const steps: Step[] = [];
  const decide: string[] = [];
  let isShaped = soFar.isShaped || isInTin(tokens);
  anchors.forEach((anchor, order) => {
    // `Preferment: mix, 2 to 3 hours on the counter`
    const isLeft = anchor.doing === 'mix' && anchors.length === 1 && soFar.of !== 'dough' && (durationIn(tokens)?.highMinutes ?? 0) >= LONGEST_MIXING;
    const doing = settled(isLeft ? { ...anchor, doing: 'rest' } : anchor, tokens, { ...soFar, isShaped }, anchors[order + 1]?.index);
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
    const further = doing === 'mix' || doing === 'knead' ? furtherMixing(doing, clause) : [];
    const found = stepOf(doing, clause, soFar.oven);
    // A preferment is stirred and left: the stirring is no step of its own.
    if (doing === 'mix' && soFar.of !== 'dough' && anchors.length > 1) return;
    // `During the bulk, fold every 40 min`: the bulk was told of before.
    if (found === undefined && doing === 'bulk' && folds.length > 0) return;
    if (found === undefined) decide.push(doing === 'preheat' ? NO_HEAT : (NEEDS_TIME.get(doing) ?? ''));
    else steps.push({ kind: doing, bake: found, folds: doing === 'bulk' ? folds : [] }, ...further);
  });
  const bakesOn = anchors.length === 0 && soFar.of === 'dough' ? moreBaking(tokens, soFar) : [];
  steps.push(...bakesOn);
  if (anchors.length === 0 && soFar.of !== 'dough') steps.push(...waiting(tokens, soFar.of));
  const hasBulk = steps.some(({ kind }) => kind === 'bulk');
  const asked = decide.filter((question) => question !== '');
  const scale = degreesWithoutScale(tokens);
  return {
    steps: oneOfEach(steps), folds: hasBulk ? [] : folds,
    decide: [...new Set([...(scale === undefined ? asked : [...asked.filter((question) => question !== NO_HEAT), scale]), ...openIn(tokens, steps, asked, hasBulk ? [] : folds)])],
    soFar: { ...soFar, isShaped, oven, hasRisen: soFar.hasRisen || hasBulk },
  };
}

/** What a sentence says that its steps do not: an oven with a fan, folds under no rise, a long time. */
function openIn(tokens: readonly Token[], steps: readonly Step[], asked: readonly string[], folds: readonly string[]): readonly string[] {
  const fan = temperaturesIn(tokens).find(({ isFan, lowCelsius }) => isFan && lowCelsius >= 60);
  const lost = asked.length > 0 || (steps.length === 0 && folds.length > 0) ? undefined : timeLeft(tokens, [...steps.flatMap((step) => [step.bake, ...step.folds]), ...folds]);
  return [
    ...(fan === undefined ? [] : [`how hot is it without the fan? ${inCelsius(fan)} is with it.`]),
    ...(steps.length > 0 && folds.length > 0 ? [`under which rise do the folds go? ${folds.join('; ')}`] : []),
    ...(lost === undefined ? [] : [lost]),
  ];
}

/** `4 minutes slow, 3 minutes fast`: the goes behind the first. Of `8 minutes, or 12 by hand` there are none. */
function furtherMixing(kind: 'mix' | 'knead', clause: readonly Token[]): readonly Step[] {
  if (clause.some((token) => isWord(token, 'or', 'hand') || isSign(token, '('))) return [];
  const steps: Step[] = [];
  for (let index = 0, isFirst = true; index < clause.length; index += 1) {
    const found = durationAt(clause, index);
    if (found === undefined) continue;
    if (!isFirst && !isWord(clause[index - 1], 'after', 'every', 'last', 'first') && found.value.highMinutes < LONGEST_MIXING) {
      steps.push({ kind, bake: `${kind} ${durationWords(found.value)}${byWhat(clause)}`, folds: [] });
    }
    isFirst = false;
    index = found.next - 1;
  }
  return steps;
}

/** `a 375 degree oven` */
function degreesWithoutScale(tokens: readonly Token[]): string | undefined {
  const at = tokens.findIndex((token, index) => token.kind === 'number' && token.value >= 100 && (isWord(tokens[index + 1], 'degree', 'degrees') || isSign(tokens[index + 1], '°'))
    && temperaturesIn(tokens.slice(index, index + 4)).length === 0);
  const bare = at >= 0 ? at : tokens.findIndex((token, index) => token.kind === 'number' && token.value >= 100 && isWord(tokens[index - 1], 'to', 'at', 'oven') && isBare(tokens, index));
  const isOven = at >= 0 || tokens.some((token) => isWord(token, 'oven', 'preheat', 'bake', 'baked'));
  return bare < 0 || !isOven ? undefined : `is ${tokens[bare]?.text ?? ''} in C or in F?`;
}

/** `without the lid`, `25 min without at 220 C` */
function isAboutLid(tokens: readonly Token[], index: number): boolean {
  return isWord(tokens[index], 'without') && (isWord(tokens[index + 1], 'at', 'it') || isSign(tokens[index + 1], ')') || tokens.slice(index + 1, index + 4).some((one) => isWord(one, 'lid', 'steam')));
}

/** A number with no unit behind it. */
function isBare(tokens: readonly Token[], index: number): boolean {
  const after = tokens[index + 1];
  return temperaturesIn(tokens.slice(index, index + 6)).every((one) => one.index > 0) && (after === undefined || isSign(after, ',', '.', ';', '(', '/') || isWord(after, 'for', 'with', 'then', 'and', 'until', 'without'));
}

/** `Uncover and give it 25 more minutes`: a lid and a time, and nothing else is done; `230 C for 20 min`: no dough stands as hot but in the oven. */
function moreBaking(tokens: readonly Token[], { isShaped, oven }: SoFar): readonly Step[] {
  const saysLid = tokens.some((token) => isWord(token, 'uncover', 'uncovered', 'lid'));
  const isHot = temperaturesIn(tokens).some(({ lowCelsius, isCore }) => lowCelsius >= 150 && !isCore);
  return (saysLid && isShaped && oven !== undefined) || isHot ? bakesIn(tokens, oven, coreIn(tokens)).map((bake): Step => ({ kind: 'bake', bake, folds: [] })) : [];
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
function settled({ doing, index }: Anchor, tokens: readonly Token[], { isShaped, hasRisen, of }: SoFar, end: number | undefined): StepKind {
  const waits = doing === 'rise' || doing === 'rest' || doing === 'bulk' || doing === 'proof';
  if (waits && of === 'preferment') return 'ripen';
  if (waits && of === 'other') return 'rest';
  if (waits && tokens.slice(index, index + 16).some((token) => isWord(token, 'fridge', 'refrigerator', 'refrigerate'))) return 'retard';
  // `Let it sit for 12 hours`: what stands as long rises, whatever it is called.
  const isLong = (durationIn(tokens.slice(index, end))?.lowMinutes ?? 0) >= LONGEST_REST;
  const isRise = doing === 'rise' || (doing === 'rest' && (isLong || tokens.slice(index).some((token) => isWord(token, 'doubled', 'tripled', 'risen'))));
  if (!isRise) return doing;
  const isAgain = tokens.slice(Math.max(0, index - 2), index + 4).some((token) => isWord(token, 'again')) || (hasRisen && isWord(tokens[index], 'proof', 'prove'));
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
  const said = durationIn(clause);
  const isNoMixing = (kind === 'mix' || kind === 'knead') && (said?.highMinutes ?? 0) >= LONGEST_MIXING;
  const duration = isNoMixing ? undefined : said;
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
    // `overnight, 12 hours`: the number says it closer.
    const closer = found.value.isNight ? durationAt(clause, found.next + (isSign(clause[found.next], ',', '(') ? 1 : 0)) : undefined;
    if (!isOther) return closer !== undefined && closer.value.lowMinutes >= 6 * 60 ? closer.value : found.value;
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
