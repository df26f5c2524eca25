import { defineCheck } from '../define';
import { block } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { filledTin } from '../tins';
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
    const tin = filledTin(context);
    const most = tin === undefined ? NaN : context.limits.get('tin-too-empty', `most${tin.limit}MlPerGram`);
    return tin === undefined || !(tin.mlPerGram > most)
      ? []
      : [
          {
            place: tin.place,
            message:
              `${trimmed(tin.pieceGrams, 0)} g of dough in a tin of ${trimmed(tin.millilitres, 0)} ml leaves ` +
              `${trimmed(tin.mlPerGram, 1)} ml for each gram, over ${trimmed(most, 1)}: it will not fill it. ` +
              `About ${trimmed(tin.usualGrams, 0)} g is usual.`,
          },
        ];
  },
});
