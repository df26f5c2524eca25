import type { StepDetail } from '../../../../grammar';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, FOLDS } from '../method';
import { placeOf } from '../walk';
import { minutes, plain } from '../words';

const detail = <K extends StepDetail['kind']>(details: readonly StepDetail[], kind: K) =>
  details.find((one): one is Extract<StepDetail, { readonly kind: K }> => one.kind === kind);

export const foldTooLate = defineCheck({
  code: 'fold-too-late',
  severity: 'info',
  title: 'A fold near the end of the bulk',
  why:
    'Late in the bulk a dough is full of gas and its gluten stretched: a fold then presses the gas out and tears what it ' +
    'should strengthen, the more so with nuts in it.',
  source: sourcesOf('fold-too-late'),
  limits: THRESHOLDS['fold-too-late'],
  trips: loaf({
    more: ['200 g     starter'],
    steps: ['mix         8 min', 'bulk        4 h at 25 C', '  fold      at 30 min', '  fold      «at 230 min»'],
  }),
  passes: loaf({
    more: ['200 g     starter'],
    steps: ['mix         8 min', 'bulk        4 h at 25 C', '  fold      at 30 min', '  fold      at 90 min'],
  }),
  find: ({ formula, limits }) => {
    const most = limits.get('fold-too-late', 'mostPct');
    return allSteps(formula).flatMap(({ step, parent }): readonly Found[] => {
      const { details, step: kind } = step.node;
      const at = detail(details, 'at');
      const every = detail(details, 'every');
      const bulk = parent?.node.step === 'bulk' ? parent.node.duration : undefined;
      const marked = at ?? every;
      if (!FOLDS.has(kind) || bulk === undefined || marked === undefined || bulk.highMinutes <= 0) {
        return [];
      }
      const times = detail(details, 'times')?.count.value ?? 1;
      const gap = every?.interval.lowMinutes ?? 0;
      const last = at === undefined ? gap * times : at.offset.lowMinutes + gap * (times - 1);
      const shortest = Math.min(bulk.lowMinutes, bulk.highMinutes);
      // Past the end of the bulk it is another finding.
      return last <= (shortest * most) / 100 || last > bulk.highMinutes
        ? []
        : [
            {
              place: placeOf(step.place.block, marked),
              message:
                `This ${kind} comes ${minutes(last)} into a bulk of ${minutes(shortest)}, past ${plain(most)} % of it: ` +
                `it presses the gas out and tears the gluten. ` +
                'Fold in the first half.',
            },
          ];
    });
  },
});
