/** The options that ask for another size, the same for `sheet` and `scale`. */
import { askedFor, SIZES, stepIn } from '../core/scaling/asked';
import type { ScaleRequest } from '../core/scaling/scale';
import type { ScaleStep } from '../core/scaling/scene';
import type { Options, OptionSpecs } from './options';
import { Refusal } from './refusal';

export const SIZE_OPTIONS: OptionSpecs = {
  pieces: { value: 'NUMBER', what: 'size: so many pieces' },
  piece: { value: 'WEIGHT', what: 'size: pieces of that weight' },
  dough: { value: 'WEIGHT', what: 'size: that weight of dough' },
  flour: { value: 'WEIGHT', what: 'size: that weight of flour in all' },
  factor: { value: 'NUMBER', what: 'size: so many times what is written' },
  have: { value: '"180 g starter"', what: 'size: as much as that ingredient allows' },
  tin: { value: 'VOLUME', what: 'size: each piece for a tin of that volume, such as 1.8l' },
  step: { value: 'WEIGHT', what: 'what the scale reads to, such as 1g: weights are rounded to it' },
  'small-step': { value: 'WEIGHT', what: 'the same for salt, yeast, starter and spices' },
};

/**
 * The size that the options ask for; undefined when they ask for none.
 * @throws Refusal for two sizes, or a value that is none
 */
export function sizeAskedFor(options: Options): ScaleRequest | undefined {
  const [by, second] = SIZES.filter((name) => options.has(name));
  if (by === undefined) return undefined;
  if (second !== undefined) throw new Refusal(`--${by} and --${second} both ask for a size: give one of them.`);
  const value = options.get(by) ?? '';
  const asked = askedFor(by, value);
  if (asked.kind === 'not-read') throw new Refusal(`--${by} takes ${asked.expected}, not "${value}".`);
  return asked.request;
}

/** @throws Refusal for a step that is no weight */
export function stepAskedFor(options: Options): ScaleStep {
  const asked = stepIn(options.get('step'), options.get('small-step'));
  if (asked.kind === 'not-read') throw new Refusal(`--${asked.of} takes ${asked.expected}, not "${options.get(asked.of) ?? ''}".`);
  return asked.step;
}
