/** Bake text for the examples of rules: a plain loaf, of which each example says only what it is about. */

export interface Example {
  /** Properties of the formula. */
  readonly head?: readonly string[];
  /** Whole blocks in front of the dough. */
  readonly before?: string;
  /** The head line of the dough. */
  readonly doughHead?: string;
  /** The lines of the dough. */
  readonly dough?: readonly string[];
  /** Lines after those of the dough. */
  readonly more?: readonly string[];
  /** Whole blocks behind the dough. */
  readonly after?: string;
  readonly steps?: readonly string[];
}

const FLOUR_WATER_SALT = ['1000 g    bread flour', '700 g     water', '20 g      salt'];

/** `«…»` marks the place, wherever it stands. */
export function loaf({ head = [], before, doughHead = 'dough', dough = FLOUR_WATER_SALT, more = [], after, steps = [] }: Example = {}): string {
  return [
    block('formula "Country loaf"', head),
    ...(before === undefined ? [] : [before]),
    block(doughHead, [...dough, ...more]),
    ...(after === undefined ? [] : [after]),
    ...(steps.length === 0 ? [] : [block('steps', steps)]),
  ].join('\n');
}

/** A block of a file: the head, and the lines under it. */
export function block(head: string, lines: readonly string[]): string {
  return `${[head, ...lines.map((line) => `  ${line}`)].join('\n')}\n`;
}

/** A levain of 400 g at 100 % hydration, ripe after six hours. */
export const LEVAIN = block('levain', ['180 g     bread flour', '180 g     water', '40 g      starter', 'ripen     6 h at 25 C']);
