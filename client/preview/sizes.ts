/** Sizes at which formulas are looked at: kept with the panel, written into no file. */
import type { SizeOf, ViewSize } from '../../server/requests';
import type { KeptSize } from './messages';

/** A formula that nobody has looked at for so many others is done with. */
const MOST_KEPT = 50;

/** Those of one file. */
export function sizesIn(kept: readonly KeptSize[], uri: string): readonly SizeOf[] {
  return kept.flatMap(({ uri: own, formula, size }) => (own === uri ? [{ formula, size }] : []));
}

/** With another size for one formula; with none it goes back to that of the file. */
export function withSize(kept: readonly KeptSize[], uri: string, formula: string, size: ViewSize | undefined): readonly KeptSize[] {
  const others = kept.filter((one) => one.uri !== uri || one.formula !== formula);
  return size === undefined ? others : [...others.slice(1 - MOST_KEPT), { uri, formula, size }];
}

/** What comes back from storage is checked like anything from outside: what is no size is left out. */
export function readSizes(value: unknown): readonly KeptSize[] {
  return Array.isArray(value) ? value.filter(isKept) : [];
}

function isKept(value: unknown): value is KeptSize {
  if (!isRecord(value) || typeof value['uri'] !== 'string' || typeof value['formula'] !== 'string') return false;
  const size = value['size'];
  if (!isRecord(size)) return false;
  const { by, value: asked, step, smallStep } = size;
  return typeof by === 'string' && typeof asked === 'string' && [step, smallStep].every((text) => text === undefined || typeof text === 'string');
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
