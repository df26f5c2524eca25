import { defineCheck, soundTotals } from '../define';
import { block } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { trimmed } from '../words';

const tin = (flour: number, litres: string) =>
  `${block('formula "Tin loaf"', [`«makes     1 tin of ${litres}»`, 'style     pan'])}\n${block('dough', [`${flour} g     bread flour`, `${flour * 0.62} g     water`, `${flour * 0.02} g      salt`, '4 g       instant yeast'])}`;

export const tinTooEmpty = defineCheck({
  code: 'tin-too-empty',
  severity: 'info',
  title: 'Little dough for a large tin',
  why: 'A dough that never reaches the edge of its tin bakes flat and pale, and loses more water.',
  source: sourcesOf('tin-too-empty'),
  limits: THRESHOLDS['tin-too-empty'],
  trips: tin(350, '3 l'),
  passes: tin(350, '1.7 l').replace(/[«»]/g, ''),
  find: (context) => {
    const { formula, limits } = context;
    const { tinFactor = null, tinFactorAssumed = false, tinMillilitres = null, pieceGrams = null } = formula?.yield ?? {};
    const most = limits.get('tin-too-empty', 'mostMlPerGram');
    const place = formula?.makes?.place;
    return place === undefined ||
      tinFactor === null ||
      tinFactorAssumed ||
      tinMillilitres === null ||
      pieceGrams === null ||
      tinFactor <= most ||
      soundTotals(context) === undefined
      ? []
      : [
          {
            place,
            message:
              `${trimmed(pieceGrams, 0)} g of dough in a tin of ${trimmed(tinMillilitres, 0)} ml leaves ` +
              `${trimmed(tinFactor, 1)} ml for each gram, over ${trimmed(most, 1)}: it will not fill it. ` +
              `About ${trimmed(tinMillilitres / 3, 0)} g would.`,
          },
        ];
  },
});
