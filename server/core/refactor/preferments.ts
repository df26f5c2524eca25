/** What the preferments that can be taken out of a dough are made of. All of it is common practice, no source. */
import type { PartKind } from '../../../grammar';

export interface PrefermentMix {
  readonly kind: Extract<PartKind, 'levain' | 'poolish' | 'biga'>;
  /** Per cent of the flour in it. */
  readonly waterPct: number;
  /** By the key of the yeast, per cent of the flour in it; undefined where a ripe culture raises it. */
  readonly yeastPct: Readonly<Record<string, number>> | undefined;
  /** How long and how warm, by its leaven in per cent of the flour in it. */
  readonly ripen: (leavenPct: number) => string;
}

/** Of the flour of the dough: preferments of 15 to 40 % are usual. */
export const PREFERMENTED_PCT = 20;

export const PREFERMENT_MIXES: readonly PrefermentMix[] = [
  {
    kind: 'levain', waterPct: 100, yeastPct: undefined,
    // The less culture it begins with, the longer it takes. No check of ripeness objects to these hours.
    ripen: (leavenPct) => `${leavenPct >= 50 ? '3 to 4 h' : leavenPct >= 15 ? '6 to 8 h' : '8 to 12 h'} at 25 C`,
  },
  {
    // Instant yeast of 0.05 to 0.1 % of its flour overnight; fresh is three times instant.
    kind: 'poolish', waterPct: 100,
    yeastPct: { 'yeast-instant': 0.08, 'yeast-osmotolerant': 0.08, 'yeast-dry-active': 0.1, 'yeast-fresh': 0.25 },
    ripen: () => '12 to 14 h at 21 C',
  },
  {
    // Half of its flour in water, instant yeast of 0.1 to 0.4 % of its flour.
    kind: 'biga', waterPct: 50,
    yeastPct: { 'yeast-instant': 0.2, 'yeast-osmotolerant': 0.2, 'yeast-dry-active': 0.25, 'yeast-fresh': 0.6 },
    ripen: () => '12 to 16 h at 18 C',
  },
];
