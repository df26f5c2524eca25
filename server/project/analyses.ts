/** Sections with what the core knows of them, worked out when first read and remembered for as long as it stands. */
import { analyse } from '../core/analyse';
import type { Analysis, Environment } from '../core/analyse';
import type { Place, Section } from '../core/formula/model';
import { ownPlace } from '../core/variant/places';
import { analyseTracked, stillHolds } from './environment';
import type { Remembered } from './environment';
import type { PlacedSection, SectionInFile } from './file';

/** Told of a check, by its code, or of a whole analysis (`analysis`) that threw. */
export type OnFault = (code: string, fault: unknown) => void;

/** What all sections of one state of a file share. */
export interface Scene {
  readonly environment: Environment;
  readonly remembered: WeakMap<Section, Remembered>;
  readonly onFault: OnFault | undefined;
}

export class SectionWithAnalysis implements PlacedSection {
  readonly section: Section;
  readonly firstBlock: number;
  readonly #placed: SectionInFile;
  readonly #scene: Scene;
  #analysis: Analysis | undefined;

  constructor(placed: SectionInFile, scene: Scene) {
    this.section = placed.section;
    this.firstBlock = placed.firstBlock;
    this.#placed = placed;
    this.#scene = scene;
  }

  offsetsOf(place: Place): { readonly start: number; readonly end: number } {
    // What a variant has from its base is in no text of this file.
    return this.#placed.offsetsOf(place.block < this.section.blocks.length ? place : ownPlace(this.analysis.section, place));
  }

  get environment(): Environment {
    return this.#scene.environment;
  }

  get analysis(): Analysis {
    return (this.#analysis ??= analysisOf(this.section, this.#scene));
  }
}

function analysisOf(section: Section, { environment, remembered, onFault }: Scene): Analysis {
  const last = remembered.get(section);
  if (last !== undefined && stillHolds(last, environment)) return last.analysis;
  try {
    const fresh = analyseTracked(section, environment, (own, tracked) => analyse(own, tracked, onFault));
    remembered.set(section, fresh);
    return fresh.analysis;
  } catch (fault) {
    if (onFault === undefined) throw fault;
    onFault('analysis', fault);
    return { section, formula: undefined, totals: undefined, sheet: undefined, day: undefined, findings: [], accepted: [] };
  }
}
