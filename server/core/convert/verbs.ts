/** Words of a method that name a kind of step, where they stand for what is done and not for a thing. */
import type { StepKind } from '../../../grammar';
import { durationAt } from './durations';
import { isDash, isSign, isWord, type Token } from './tokens';

/** `rise` is a bulk before the pieces are shaped and a proof after it. */
export type Doing = StepKind | 'rise';

export interface Anchor {
  readonly doing: Doing;
  readonly index: number;
  readonly next: number;
}

const VERBS = new Map<string, Doing>([
  ['mix', 'mix'], ['combine', 'mix'], ['incorporate', 'mix'], ['knead', 'knead'], ['autolyse', 'autolyse'], ['autolyze', 'autolyse'],
  ['rest', 'rest'], ['stand', 'rest'], ['sit', 'rest'], ['relax', 'rest'], ['leave', 'rest'],
  ['bulk', 'bulk'], ['ferment', 'bulk'], ['rise', 'rise'], ['rising', 'rise'], ['proof', 'rise'], ['prove', 'rise'], ['ripen', 'ripen'],
  ['retard', 'retard'], ['refrigerate', 'retard'], ['chill', 'chill'], ['freeze', 'freeze'], ['thaw', 'thaw'], ['soak', 'soak'],
  ['divide', 'divide'], ['preshape', 'preshape'], ['pre-shape', 'preshape'], ['shape', 'shape'], ['score', 'score'], ['slash', 'score'],
  ['preheat', 'preheat'], ['heat', 'preheat'], ['bake', 'bake'], ['boil', 'boil'], ['fry', 'fry'], ['cool', 'cool'], ['whisk', 'whisk'],
]);

/** These say that something waits only where they say that it waits in the fridge. */
const PUTS = ['keep', 'put', 'place', 'store'];

/** These are things as often as they are doings, and then name the same step. */
const THINGS_TOO = new Set<Doing>(['bulk', 'rise', 'autolyse', 'retard']);
const ARTICLES = ['the', 'a', 'an', 'of', 'this', 'your', 'its', 'you', 'dry', 'wet', 'spice', 'seed', 'into', 'in', 'each', 'has', 'have', 'not'];
const BEHIND_COOL = ['on', 'for', 'completely', 'in', 'to', 'before', 'down', 'fully', 'at', 'until', 'and', 'slightly', 'them', 'it', 'the', 'overnight', 'about'];

/** The doings of a sentence, in order. */
export function anchorsOf(tokens: readonly Token[]): readonly Anchor[] {
  const anchors: Anchor[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const anchor = anchorAt(tokens, index);
    if (anchor === undefined) continue;
    const before = anchors.at(-1);
    // `leave to rest`, `bulk ferment`, `let rest and rise`: the second word says which.
    if (before !== undefined && index - before.index <= 3 && isVaguer(before.doing, anchor.doing) && !tokens.slice(before.next, index).some((token) => isSign(token, ',', '.'))) anchors.pop();
    else if (before !== undefined && index - before.index <= 2 && before.doing === 'bulk' && (anchor.doing === 'bulk' || anchor.doing === 'rise')) continue;
    anchors.push(anchor);
  }
  return anchors;
}

function isVaguer(before: Doing, after: Doing): boolean {
  return before === 'rest' && ['rise', 'bulk', 'cool', 'ripen', 'autolyse', 'soak', 'retard', 'rest', 'thaw', 'chill'].includes(after);
}

function anchorAt(tokens: readonly Token[], index: number): Anchor | undefined {
  const token = tokens[index];
  if (isWord(token, ...PUTS) && tokens.slice(index, index + 9).some((one) => isWord(one, 'fridge', 'refrigerator'))) return { doing: 'retard', index, next: index + 1 };
  // `Fridge, 12 hours.`, `Shape, fridge 12 hours.`
  if (isWord(token, 'fridge', 'refrigerator') && (index === 0 || (isSign(tokens[index - 1], ',') && durationAt(tokens, index + 1) !== undefined))) return { doing: 'retard', index, next: 1 };
  const doing = token?.kind === 'word' ? VERBS.get(token.text.toLowerCase()) : undefined;
  if (doing === undefined) return undefined;
  const [before, after] = [tokens[index - 1], tokens[index + 1]];
  const named = ordinal(tokens, index, doing);
  if (named !== undefined) return { doing: named, index, next: index + 1 };
  if (isWord(before, ...ARTICLES) && !THINGS_TOO.has(doing)) return undefined;
  if (isWord(before, 'to') && isWord(tokens[index - 2], 'ready', 'enough', 'time', 'hot')) return undefined;
  if (isDash(before) && before?.spaced === false) return undefined;
  if (doing === 'rest' && isWord(after, 'mixer', 'of')) return undefined;
  if (doing === 'cool' && after !== undefined && after.kind === 'word' && !isWord(after, ...BEHIND_COOL)) return undefined;
  if (doing === 'rise' && tokens.some((one) => isWord(one, 'yeast')) && isWord(token, 'proof', 'prove')) return undefined;
  if (isWord(token, 'heat') && !tokens.slice(index).some((one) => isWord(one, 'oven'))) return undefined;
  if (isWord(token, 'heat') && isWord(before, 'oven', 'medium', 'low', 'high', 'reduce', 'lower')) return undefined;
  return { doing, index, next: index + 1 };
}

/** `first rise`, `final proof`, `cold retard`. */
function ordinal(tokens: readonly Token[], index: number, doing: Doing): Doing | undefined {
  const before = tokens[index - 1];
  if (doing !== 'rise' && doing !== 'bulk') return undefined;
  if (isWord(before, 'cold')) return 'retard';
  if (isWord(before, 'first')) return 'bulk';
  return isWord(before, 'second', 'final', 'last') ? 'proof' : undefined;
}
