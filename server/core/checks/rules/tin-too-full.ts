import { defineCheck, soundTotals } from '../define';
import { block } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { trimmed } from '../words';

const tin = (flour: number, litres: string) =>
  `${block('formula "Tin loaf"', [`«makes     1 tin of ${litres}»`, 'style     pan'])}\n${block('dough', [`${flour} g     bread flour`, `${flour * 0.62} g     water`, `${flour * 0.02} g      salt`, '4 g       instant yeast'])}`;

export const tinTooFull = defineCheck({
  code: 'tin-too-full',
  severity: 'warning',
  title: 'More dough than the tin can hold',
  why:
    'A dough grows to about three times its weight in millilitres. With less room it climbs over the edge and hangs ' +
    'down, and the middle stays raw.',
  source: sourcesOf('tin-too-full'),
  limits: THRESHOLDS['tin-too-full'],
  trips: tin(800, '1.5 l'),
  passes: tin(350, '1.7 l').replace(/[«»]/g, ''),
  find: (context) => {
    const { formula, limits } = context;
    const { tinFactor = null, tinFactorAssumed = false, tinMillilitres = null, pieceGrams = null } = formula?.yield ?? {};
    const least = limits.get('tin-too-full', 'leastMlPerGram');
    const place = formula?.makes?.place;
    return place === undefined ||
      tinFactor === null ||
      tinFactorAssumed ||
      tinMillilitres === null ||
      pieceGrams === null ||
      tinFactor >= least ||
      soundTotals(context) === undefined
      ? []
      : [
          {
            place,
            message:
              `${trimmed(pieceGrams, 0)} g of dough in a tin of ${trimmed(tinMillilitres, 0)} ml leaves ` +
              `${trimmed(tinFactor, 1)} ml for each gram, under ${trimmed(least, 1)}: it will run over. ` +
              `About ${trimmed(tinMillilitres / (least * 1.25), 0)} g would fit.`,
          },
        ];
  },
});
