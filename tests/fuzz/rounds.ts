/** One text after another from one seed. The project stays: each text is an edit of the one before it, with all that is remembered. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { askEverything, projectOf } from './everything';
import { garbled, randomOf } from './garble';

/** The samples by name. */
export function samplesIn(root: string): ReadonlyMap<string, string> {
  const folder = path.join(root, 'samples');
  return new Map(readdirSync(folder).filter(name => name.endsWith('.bake')).map(name => [name, readFileSync(path.join(folder, name), 'utf8')]));
}

export interface Round {
  readonly seed: number;
  readonly text: string;
  /** Asks everything about it, with hovers at every so-many-th place. */
  ask(hoverEvery?: number): Promise<void>;
}

/** The text of each seed from the first on, without an end. */
export function* roundsFrom(first: number, samples: ReadonlyMap<string, string>): Generator<Round, never> {
  const project = projectOf(samples);
  const texts = [...samples.values()];
  for (let seed = first; ; seed++) {
    const random = randomOf(seed);
    const text = garbled(random, texts);
    yield { seed, text, ask: hoverEvery => askEverything(project, text, random, hoverEvery) };
  }
}
