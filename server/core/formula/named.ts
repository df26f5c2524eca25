/** Lines that a step means by a name, as in `add butter`. */
import { foldName } from '../ingredients/names';
import { nameKey } from './draft';
import type { ResolvedLine, ResolvedPart } from './model';

/**
 * Lines of that very name or ingredient, or that take in the part of that name; failing these, of the same name in another
 * number or spelling (`raisin`); failing these, those whose name holds all the words (`butter` for `unsalted butter`).
 *
 * @param parts those that `ResolvedLine.part` counts in
 * @param ingredientKey the ingredient that the name is known to stand for
 */
export function linesNamed(name: string, lines: readonly ResolvedLine[], parts: readonly ResolvedPart[], ingredientKey?: string): readonly ResolvedLine[] {
  const wanted = nameKey(name);
  const exact = lines.filter(
    (line) =>
      nameKey(line.name) === wanted ||
      (line.part !== undefined && parts[line.part]?.key === wanted) ||
      (ingredientKey !== undefined && line.key === ingredientKey),
  );
  if (exact.length > 0) return exact;
  const alike = lines.filter((line) => foldName(line.name) === foldName(name));
  if (alike.length > 0) return alike;
  const words = wanted.split(' ');
  return lines.filter((line) => {
    const own = nameKey(line.name).split(' ');
    return words.every((word) => own.includes(word));
  });
}
