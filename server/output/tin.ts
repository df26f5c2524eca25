/** The tin of a formula in words. */
import type { Yield } from '../core/formula/model';
import { volumeWords } from '../core/scaling/scale';
import { decimals, weight } from './numbers';

/** `1.8 l · 640 g each (2.8 ml a gram, a usual figure)`; undefined when `makes` names no tin. */
export function tinWords({ tinMillilitres, tinFactor, tinFactorAssumed, pieceGrams, pieces }: Yield): string | undefined {
  if (tinMillilitres === null) return undefined;
  if (pieceGrams === null || tinFactor === null) return volumeWords(tinMillilitres);
  // A figure that is only usual gives no weight to the gram.
  const grams = tinFactorAssumed && pieceGrams >= 100 ? Math.round(pieceGrams / 10) * 10 : pieceGrams;
  const each = `${weight(grams)}${pieces === null || pieces === 1 ? '' : ' each'}`;
  return `${volumeWords(tinMillilitres)} · ${each} (${decimals(tinFactor, 1)} ml a gram${tinFactorAssumed ? ', a usual figure' : ''})`;
}
