/** What the sections of a file have around them, with as much as possible kept from what they had before. */
import type { Block } from '../../grammar';
import type { Environment } from '../core/analyse';
import type { Section } from '../core/formula/model';
import { builtInCatalogue, extend } from '../core/ingredients/catalogue';
import type { Catalogue } from '../core/ingredients/model';
import { namesakesAmong } from '../core/namesakes';
import type { Brought, Namesakes } from '../core/namesakes';
import type { Settings } from '../core/settings/settings';
import type { MeasureSystem } from '../core/units/volume';
import { formulasIn, sameList } from './environment';
import type { UseLink } from './file';
import type { Files } from './files';
import type { Parsed } from './parsed';

export interface Surroundings {
  readonly own: Parsed;
  /** Files reached by `use`, nearest first. */
  readonly visible: readonly Parsed[];
  readonly uses: readonly UseLink[];
  readonly environment: Environment;
}

/** As many different sets of ingredient blocks as a workspace is likely to have at once. */
const MOST_CATALOGUES = 32;

/** Catalogues by the ingredient blocks layered over the built-in one: files that see the same have the same. */
export class Catalogues {
  /** Latest last. */
  #known: { readonly measures: MeasureSystem; readonly blocks: readonly Block[]; readonly catalogue: Catalogue }[] = [];

  /** @param blocks in the order in which they are laid on: the last word counts */
  of(blocks: readonly Block[], measures: MeasureSystem): Catalogue {
    if (blocks.length === 0) return builtInCatalogue;
    const known = this.#known.find(one => one.measures === measures && sameList(one.blocks, blocks));
    const entry = known ?? { measures, blocks, catalogue: extend(builtInCatalogue, blocks, measures) };
    this.#known = [...this.#known.filter(one => one !== known).slice(1 - MOST_CATALOGUES), entry];
    return entry.catalogue;
  }
}

/** What is around the sections of `own` now. `last` is what was when it was last asked for. */
export function surroundingsOf(
  files: Files, catalogues: Catalogues, settings: Settings, { own, visible, uses }: Omit<Surroundings, 'environment'>, last: Surroundings | undefined,
): Surroundings {
  const problems = new Map(uses.map(use => [use.path.text, use.problem]));
  const { limits, checks: severities, measures = 'us', tapCelsius, zone } = settings;
  const isAsBefore = last !== undefined && sameHeads(own, visible, uses, last);
  const environment: Environment = {
    // The nearest file's word on an ingredient is laid on last.
    catalogue: catalogues.of([own, ...visible].reverse().flatMap(file => file.ingredientBlocks), measures),
    formulas: formulasIn([own, ...visible], last?.environment.formulas),
    measures,
    tapCelsius,
    zone,
    useProblem: path => problems.get(path),
    namesakes: isAsBefore ? last.environment.namesakes : lazyNamesakes(sectionsIn(own), broughtInto(own, uses, files)),
    limits,
    severities,
  };
  return { own, visible, uses, environment };
}

/** Worked out when first asked for: most sections ask, but a file that nobody looks at does not. */
function lazyNamesakes(own: readonly Section[], brought: readonly Brought[]): Namesakes {
  let known: Namesakes | undefined;
  const all = (): Namesakes => (known ??= namesakesAmong(own, brought));
  return { of: block => all().of(block), ofUse: path => all().ofUse(path) };
}

function broughtInto(own: Parsed, uses: readonly UseLink[], files: Files): readonly Brought[] {
  return uses.flatMap(({ path, uri }) => {
    const used = uri === undefined ? undefined : files.known(uri);
    const first = used && files.parsedNow(used);
    // A circle of `use` lines leads back here: what is this file's own is not brought in.
    const brought = used === undefined || first === undefined ? [] : [first, ...files.visibleFrom(used)].filter(file => file !== own);
    return brought.length === 0 ? [] : [{ path: path.text, sections: brought.flatMap(sectionsIn) }];
  });
}

/**
 * Copies: what is remembered of a section lives as long as the section, and holds the formulas around it. Namesakes outlive
 * many edits, and with them would all that came in between.
 */
function sectionsIn(file: Parsed): readonly Section[] {
  return file.sections.map(({ section }) => ({ ...section }));
}

/** Whether the blocks that a name can belong to are those of last time, in all files that are seen. */
function sameHeads(own: Parsed, visible: readonly Parsed[], uses: readonly UseLink[], last: Surroundings): boolean {
  return sameList(visible, last.visible)
    && sameList(own.ingredientBlocks, last.own.ingredientBlocks)
    && uses.length === last.uses.length && uses.every(({ path, uri }, i) => path.text === last.uses[i]?.path.text && uri === last.uses[i].uri)
    && own.sections.length === last.own.sections.length
    && own.sections.every(({ section }, i) => section.blocks[0] === last.own.sections[i]?.section.blocks[0]);
}
