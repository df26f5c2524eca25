/** What is weighed into a part, one entry an ingredient: the lines of one thing added up, as a baker weighs it. */
import type { Role } from '../../../grammar';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import type { Ingredient } from '../ingredients/model';
import type { ComparedSection } from './model';
import { temperatureWords } from './words';

export interface Entry {
  /** The same thing for the same purpose, within a part. A part that is taken in is named by its index. */
  readonly id: string;
  readonly key: string;
  readonly name: string;
  readonly role: Role;
  readonly ingredient: Ingredient | undefined;
  /** Index of the part that the entry takes in. */
  readonly taken: number | undefined;
  readonly grams: number | null;
  /** Of all the flour, %. */
  readonly pct: number | null;
  /** Of what 100 % is in its own part. */
  readonly ownPct: number | null;
  /** Out of the dough: dusting, for the top. */
  readonly purpose: string | undefined;
  /** How its amounts are written: `mass`, `share`, `share of all`, … */
  readonly writing: string;
  /** What is said besides: temperature, note, role. In order, each once. */
  readonly details: readonly string[];
  readonly lines: readonly ResolvedLine[];
}

/** A formula with the parts' entries at hand. */
export interface Weighed {
  readonly compared: ComparedSection;
  readonly formula: ResolvedFormula;
  /** By part, in the order of `formula.parts`. */
  readonly entries: readonly (readonly Entry[])[];
}

/**
 * @param asListed of a total formula, the weights of its list, preferments' share included, in the place of what is then weighed into
 *   the dough: where both versions are such lists, they are what somebody wrote
 */
export function weighed(compared: ComparedSection, asListed: boolean): Weighed | undefined {
  const { formula, totals } = compared.analysis;
  if (formula === undefined) return undefined;
  const flour = totals?.flour_g ?? null;
  return { compared, formula, entries: formula.parts.map((part) => entriesOf(part, flour, asListed)) };
}

function entriesOf(part: ResolvedPart, flourGrams: number | null, asListed: boolean): readonly Entry[] {
  const groups = new Map<string, ResolvedLine[]>();
  for (const line of part.lines) {
    // A total formula lists what its preferments hold, too; of that, nothing is left to weigh into the dough.
    if (!asListed && line.listed !== undefined && line.grams !== null && Math.abs(line.grams) < 1e-9) continue;
    const id = idOf(line);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [line]);
    else group.push(line);
  }
  return [...groups].flatMap(([id, lines]): Entry[] => {
    const [first] = lines;
    if (first === undefined) return [];
    const grams = lines.reduce<number | null>((sum, line) => {
      const own = asListed && line.listed !== undefined ? line.listed.grams : line.grams;
      return sum === null || own === null ? null : sum + own;
    }, 0);
    return [{
      id, lines, grams,
      key: first.key,
      name: first.name,
      role: first.role,
      ingredient: first.ingredient,
      taken: first.part,
      pct: grams === null || flourGrams === null || flourGrams <= 0 ? null : (100 * grams) / flourGrams,
      ownPct: lines.reduce<number | null>((sum, { pct, listed }) => {
        const own = listed === undefined ? pct : listed.pct;
        return sum === null || own === null ? null : sum + own;
      }, 0),
      purpose: first.inDough ? undefined : (first.purpose ?? ''),
      writing: [...new Set(lines.map(writingOf))].sort().join(),
      details: [...new Set(lines.flatMap(detailsOf))].sort(),
    }];
  });
}

function writingOf({ source, listed }: ResolvedLine): string {
  const own = source?.kind === 'ingredient' ? source.amount.kind : (source?.kind ?? 'added');
  return listed === undefined ? own : `${own} of all`;
}

function idOf({ part, key, inDough, purpose }: ResolvedLine): string {
  const thing = part === undefined ? `ingredient ${key}` : `part ${String(part)}`;
  return inDough ? thing : `${thing} for ${purpose ?? ''}`;
}

function detailsOf({ source, purpose, inDough }: ResolvedLine): readonly string[] {
  if (source?.kind !== 'ingredient') return [];
  const { temperature, hydrationPct, role, note } = source;
  return [
    ...(temperature === undefined ? [] : [`at ${temperatureWords(temperature)}`]),
    ...(hydrationPct === undefined ? [] : [`at ${String(hydrationPct.value)} % hydration`]),
    ...(role === undefined ? [] : [`as ${role.role}`]),
    ...(inDough ? [] : [`for ${purpose ?? ''}`]),
    ...(note === undefined ? [] : [note.text]),
  ];
}
