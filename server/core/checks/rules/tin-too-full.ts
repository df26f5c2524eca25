import { defineCheck } from '../define';
import { block } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { filledTin } from '../tins';
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
    const tin = filledTin(context);
    const least = tin === undefined ? NaN : context.limits.get('tin-too-full', `least${tin.limit}MlPerGram`);
    return tin === undefined || !(tin.mlPerGram < least)
      ? []
      : [
          {
            place: tin.place,
            message:
              `${trimmed(tin.pieceGrams, 0)} g of dough in a tin of ${trimmed(tin.millilitres, 0)} ml leaves ` +
              `${trimmed(tin.mlPerGram, 1)} ml for each gram, under ${trimmed(least, 1)}: it will run over. ` +
              `About ${trimmed(tin.usualGrams, 0)} g is usual.`,
          },
        ];
  },
});
