import { recordsOf } from '../../records';
import type { Place } from '../../formula/model';
import { defineCheck } from '../define';
import { block, loaf } from '../examples';

const LATER = block('record 2026-05-09', ['core      97 C']);
const FIRST = block('record 2026-05-02', ['core      97 C']);

export const recordDateTwice = defineCheck({
  code: 'record-date-twice',
  severity: 'info',
  title: 'Two records of one day',
  why:
    'A record is often copied to begin the next one, and the date forgotten. Then a bake stands on the wrong day, and one that was ' +
    'copied whole counts twice in the pace and in the loss. Two batches of one day are fine: accept them with that reason.',
  source: 'definition of the language',
  trips: `${loaf()}\n${FIRST}\n${FIRST.replace('record 2026-05-02', '«record 2026-05-02»')}`,
  passes: `${loaf()}\n${FIRST}\n${LATER}`,
  find: ({ formula }) => {
    const first = new Map<string, Place>();
    return (formula === undefined ? [] : recordsOf(formula)).flatMap(({ date, place }) => {
      const before = first.get(date);
      if (date === '' || before === undefined) {
        first.set(date, place);
        return [];
      }
      return [{
        place,
        message:
          `There is another record of ${date} above. If it is a copy, correct its date or take it out; if these were two batches, ` +
          'accept it: `# accept record-date-twice: two batches`.',
        related: [{ place: before, message: 'the other one' }],
      }];
    });
  },
});
