import { isRye, shareOf } from '../contents';
import { defineCheck, soundTotals, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, styleOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const styleNotMet = defineCheck({
  code: 'style-not-met',
  severity: 'info',
  title: 'A style that the dough does not have',
  why:
    'The `style` line decides which limits a formula is held to. A dough called rye with little rye in it is held to ' +
    'the wrong ones.',
  source: sourcesOf('style-not-met'),
  limits: THRESHOLDS['style-not-met'],
  trips: loaf({
    head: ['style     «rye»'],
    dough: ['900 g     bread flour', '100 g     dark rye flour', '700 g     water', '20 g      salt'],
  }),
  passes: loaf({
    head: ['style     rye'],
    dough: ['650 g     bread flour', '350 g     dark rye flour', '700 g     water', '20 g      salt'],
  }),
  find: (context) => {
    const totals = soundTotals(context);
    if (
      totals?.flour_g === undefined ||
      totals.flour_g === null ||
      totals.flour_g <= 0 ||
      context.formula?.kind !== 'formula'
    ) {
      return [];
    }
    // A flour that nobody knows may be rye or whole.
    const unknown = context.reports.leaves().some(({ line }) => line.role === 'flour' && line.ingredient === undefined);
    const lacks = (place: Found['place'], word: string, what: string, pct: number | null, limitName: string): readonly Found[] => {
      const limit = context.limits.get('style-not-met', limitName);
      return pct === null || pct >= limit
        ? []
        : [
            {
              place,
              message:
                `The style is ${word}, and ${what} is ${against(pct, limit)} % of the flour, under ${percent(limit)}: ` +
                `the limits for ${word} do not fit this dough. Change the style, or the dough.`,
            },
          ];
    };
    return context.formula.styles.flatMap(({ text, place }): readonly Found[] => {
      switch (styleOf(text)) {
        case 'rye':
          return unknown ? [] : lacks(place, text, 'rye', shareOf(context, isRye)?.pct ?? 0, 'leastRyePct');
        case 'whole grain':
          return unknown ? [] : lacks(place, text, 'whole grain', shareOf(context, ({ line }) => line.ingredient?.wholeGrain === true)?.pct ?? 0, 'leastWholeGrainPct');
        case 'brioche':
          return lacks(place, text, 'fat', totals.fat_pct, 'leastBriocheFatPct');
        default:
          return [];
      }
    });
  },
});
