/** Limits that leave nothing between them: a least above its most. */
import type { Span } from '../../../grammar';
import { LIMITS } from './settings';

/** A limit by the code of its check and its name. */
type LimitName = readonly [code: string, name: string];

/** A least and its most that stand in two checks. */
const ACROSS: readonly (readonly [least: LimitName, most: LimitName])[] = [
  [['salt-low', 'leastPct'], ['salt-high', 'mostPct']],
  [['hydration-low', 'leastPct'], ['hydration-high', 'mostPct']],
  [['oven-cool', 'leastCelsius'], ['oven-hot', 'mostCelsius']],
  [['bake-too-short', 'leastShare'], ['bake-too-long', 'mostShare']],
  [['tin-too-full', 'leastMlPerGram'], ['tin-too-empty', 'mostMlPerGram']],
  [['tin-too-full', 'leastLiddedMlPerGram'], ['tin-too-empty', 'mostLiddedMlPerGram']],
  [['tin-too-full', 'leastBatterMlPerGram'], ['tin-too-empty', 'mostBatterMlPerGram']],
];

/** In one check they are named alike: `leastCelsius`, `mostCelsius`. */
const WITHIN: readonly (readonly [least: LimitName, most: LimitName])[] = Object.entries(LIMITS).flatMap(([code, limits]) =>
  Object.keys(limits).flatMap((name) => {
    const most = name.replace(/^least/, 'most');
    return most !== name && Object.hasOwn(limits, most) ? [[[code, name], [code, most]] as const] : [];
  }),
);

/** A value that a workspace sets, and where. */
export interface SetLimit {
  readonly code: string;
  readonly name: string;
  readonly value: number;
  readonly span: Span;
}

/** One for each pair of which a file sets at least one side: where, and what is wrong. The other side is what counts without a style. */
export function crossedLimits(set: readonly SetLimit[]): readonly { readonly span: Span; readonly message: string }[] {
  const find = ([code, name]: LimitName) => set.find((each) => each.code === code && each.name === name);
  return [...WITHIN, ...ACROSS].flatMap(([least, most]) => {
    const [setLeast, setMost] = [find(least), find(most)];
    const at = setMost ?? setLeast;
    const low = setLeast?.value ?? LIMITS[least[0]]?.[least[1]]?.value;
    const high = setMost?.value ?? LIMITS[most[0]]?.[most[1]]?.value;
    if (at === undefined || low === undefined || high === undefined || low <= high) return [];
    const named = ([code, name]: LimitName, value: number) => `"${name}"${least[0] === most[0] ? '' : ` of ${code}`} (${String(value)})`;
    return [{ span: at.span, message: `${named(least, low)} is above ${named(most, high)}, so nothing is right for both. Change one of them.` }];
  });
}
