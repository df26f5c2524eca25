import type { StepDetail, StepKind } from '../../../../grammar';
import type { Place, PlacedStep } from '../../formula/model';
import { defineCheck, type Found } from '../define';
import { placeOf } from '../walk';
import { minutes } from '../words';

const FOLDS: ReadonlySet<StepKind> = new Set<StepKind>(['fold', 'stretch and fold', 'coil fold', 'laminate']);

export const foldOutsideBulk = defineCheck({
  code: 'fold-outside-bulk',
  severity: 'error',
  title: 'A fold when there is no bulk',
  why:
    '`at 30 min` in a fold counts from the start of the bulk it stands under. A fold past the end of the bulk, or ' +
    'under no bulk at all, has no time at which it could be done.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        2 h at 24 C
    fold      at 30 min
    fold      «at 150 min»
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        2 h at 24 C
    fold      at 30 min
    fold      at 90 min
`,
  find: ({ formula }) => {
    const found: Found[] = [];
    const waiting: { readonly step: PlacedStep; readonly parent: PlacedStep | undefined }[] = [
      ...(formula?.method ?? []),
      ...(formula?.parts.flatMap((part) => part.steps) ?? []),
    ].map((step) => ({ step, parent: undefined }));
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      const { step, parent } = next;
      waiting.push(...step.children.map((child) => ({ step: child, parent: step })));
      const when = offsetOf(step);
      if (!FOLDS.has(step.node.step) || when === undefined) {
        continue;
      }
      if (parent?.node.step !== 'bulk') {
        found.push({
          place: when.place,
          message:
            `This ${step.node.step} has a time of its own, which counts from the start of a bulk, and it stands under ` +
            'none. Indent it under the `bulk` it belongs to.',
        });
      } else if (parent.node.duration !== undefined && when.lastMinutes > parent.node.duration.highMinutes) {
        found.push({
          place: when.place,
          message:
            `This ${step.node.step} falls ${minutes(when.lastMinutes)} into a bulk that ends after ` +
            `${minutes(parent.node.duration.highMinutes)}. ` +
            'Fold earlier, or make the bulk longer.',
        });
      }
    }
    return found;
  },
});

/** When the last of these folds is done, from the start of the bulk, and where that is written. */
function offsetOf(step: PlacedStep): { readonly place: Place; readonly lastMinutes: number } | undefined {
  const { details } = step.node;
  const at = details.find((detail): detail is Extract<StepDetail, { kind: 'at' }> => detail.kind === 'at');
  const every = details.find((detail): detail is Extract<StepDetail, { kind: 'every' }> => detail.kind === 'every');
  const times = details.find((detail): detail is Extract<StepDetail, { kind: 'times' }> => detail.kind === 'times');
  const marked = at ?? every;
  if (marked === undefined) {
    return undefined;
  }
  const interval = every?.interval.lowMinutes ?? 0;
  const count = times?.count.value ?? 1;
  // With `at`, the first fold is at that time and the others follow; without, the first comes one interval in.
  const lastMinutes = at === undefined ? interval * count : at.offset.lowMinutes + interval * (count - 1);
  return { place: placeOf(step.place.block, marked), lastMinutes };
}
