/**
 * Finding ingredients by name. One index of folded names for what ships; `extend` lays the baker's own over it.
 */
import type { Block } from '../../../grammar';
import type { MeasureSystem } from '../units/volume';
import { BUILT_IN, type NamedIngredient } from './builtin';
import type { Catalogue, Ingredient } from './model';
import { foldName, normaliseName } from './names';
import { AMBIGUOUS } from './names/ambiguous';
import { lettersOf, nearestNames, type Candidate } from './nearest';
import { likeOf, ownIngredient, ownName } from './own';
import { findPrepared, withoutPreparation } from './prepared';

/** A catalogue that can be extended: every exact name, by folded form. */
interface Layered extends Catalogue {
  readonly exact: (folded: string) => Ingredient | undefined;
  readonly candidates: () => readonly Candidate[];
}

function isLayered(catalogue: Catalogue): catalogue is Layered {
  return 'exact' in catalogue && 'candidates' in catalogue;
}

/** Computed once, when first asked for. */
function lazily<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}

const choicesByName = lazily(() => new Map(Object.entries(AMBIGUOUS).map(([name, choices]) => [foldName(name), choices])));

/** Names as they are written whose meaning is remembered: one is asked for many times, and evening out its spelling is slow. */
const MOST_REMEMBERED = 2000;

/** A layer of named ingredients over another catalogue. */
function layer(named: readonly NamedIngredient[], below: Layered | undefined): Layered {
  // Evening out a thousand names takes a while that nobody should wait for who asks for none.
  const index = lazily(() => new Map(named.flatMap(({ ingredient, names }) => names.map((name) => [foldName(name), ingredient] as const))));
  const exact = (folded: string): Ingredient | undefined => index().get(folded) ?? below?.exact(folded);
  const found = new Map<string, Ingredient | undefined>();
  const candidates = lazily((): readonly Candidate[] => [
    ...named.flatMap(({ ingredient: of, names }) =>
      names.map((name) => {
        const normal = normaliseName(name);
        return { name, normal, letters: lettersOf(normal), of };
      }),
    ),
    ...(below?.candidates() ?? []).filter(({ name }) => !index().has(foldName(name))),
  ]);
  const all = lazily(() => [
    ...named.flatMap(({ ingredient, names: [name] }) => (name === undefined ? [] : [{ name, ingredient }])),
    ...(below?.all ?? []).filter(({ name }) => !index().has(foldName(name))),
  ]);
  return {
    exact,
    candidates,
    find(name) {
      if (found.has(name)) return found.get(name);
      const folded = foldName(name);
      const ingredient = folded === '' ? undefined : (exact(folded) ?? findPrepared(folded, exact));
      // Names half typed come and go.
      if (found.size >= MOST_REMEMBERED) found.clear();
      found.set(name, ingredient);
      return ingredient;
    },
    nearest(name, limit = 3) {
      const normal = normaliseName(name);
      const bare = withoutPreparation(normal);
      const choices = choicesByName().get(foldName(normal)) ?? choicesByName().get(foldName(bare));
      if (choices !== undefined) return choices.slice(0, limit);
      const close = nearestNames(normal, candidates(), limit);
      return close.length > 0 || bare === normal ? close : nearestNames(bare, candidates(), limit);
    },
    get all() {
      return all();
    },
  };
}

const builtIn = layer(BUILT_IN, undefined);

/** The ingredients that ship. */
export const builtInCatalogue: Catalogue = builtIn;

/**
 * The catalogue with the `ingredient` blocks among `blocks` laid over it: their names come first, also over a name that
 * ships. `like` may name any other of them, in any order; one that leads back to itself is looked for below. Of two blocks
 * with one name the later counts. `measures` says what a cup is in a `density` line.
 */
export function extend(catalogue: Catalogue, blocks: readonly Block[], measures: MeasureSystem = 'us'): Catalogue {
  const below: Layered = isLayered(catalogue)
    ? catalogue
    : { ...catalogue, exact: (folded) => catalogue.find(folded), candidates: () => [] };
  const byName = new Map<string, { readonly block: Block; readonly name: string }>();
  for (const block of blocks) {
    const name = ownName(block);
    if (name !== undefined && foldName(name) !== '') byName.set(foldName(name), { block, name });
  }
  if (byName.size === 0) return catalogue;

  const keysBelow = new Set(below.all.map(({ ingredient }) => ingredient.key));
  const made = new Map<string, Ingredient>();
  const underway = new Set<string>();
  const findOwn = (folded: string): Ingredient | undefined => {
    const own = byName.get(folded);
    if (own === undefined || underway.has(folded)) return undefined;
    const done = made.get(folded);
    if (done !== undefined) return done;
    underway.add(folded);
    const like = likeOf(own.block);
    const base = like === undefined ? undefined : find(foldName(like));
    underway.delete(folded);
    const ingredient = ownIngredient(own.block, own.name, base, measures);
    // The same word for another thing must not become one row with what ships.
    const key = keysBelow.has(ingredient.key) ? `own-${ingredient.key}` : ingredient.key;
    const named = { ...ingredient, key };
    made.set(folded, named);
    return named;
  };
  const exact = (folded: string): Ingredient | undefined => findOwn(folded) ?? below.exact(folded);
  const find = (folded: string): Ingredient | undefined => exact(folded) ?? findPrepared(folded, exact);

  const named = [...byName].flatMap(([folded, { name }]) => {
    const ingredient = findOwn(folded);
    return ingredient === undefined ? [] : [{ ingredient, names: [name] }];
  });
  return layer(named, below);
}
