import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { allSteps, wordsOf } from '../method';
import { placeOf } from '../walk';

const WATER = /\b(water|ice|ice cubes?)\b/i;
const POURS = /\b(pour|throw|toss|splash|spray|quench|fill|drop|put|add|tip|douse)\w*\b/i;
const CRACKS = /\b(glass|enamel|enamell?ed|ceramic|stoneware|earthenware|clay|pyrex|casserole|pizza stone|baking stone)\b/i;

export const waterOnHotGlass = defineCheck({
  code: 'water-on-hot-glass',
  severity: 'warning',
  title: 'Water into hot glass or enamel',
  why:
    'Glass, enamel and stone that are oven-hot crack or chip when water hits them, and the steam scalds hands. Steam ' +
    'is made ' +
    'in a bare metal tray that stands in the oven, poured from the side.',
  source: 'common practice, no source: makers of ovenware warn of sudden changes of temperature',
  trips: loaf({
    steps: ['preheat     45 min at 235 C', 'bake        40 min at 235 C, «"pour water into the hot glass dish"»'],
  }),
  passes: loaf({
    steps: ['preheat     45 min at 235 C', 'bake        40 min at 235 C, with steam, "pour water into the steel tray"'],
  }),
  find: ({ formula }) =>
    allSteps(formula).flatMap(({ step }): readonly Found[] =>
      ['preheat', 'bake', 'steam', 'do'].includes(step.node.step)
        ? wordsOf(step)
            .filter(({ text }) => WATER.test(text) && POURS.test(text) && CRACKS.test(text) && !/\b(do not|don't|don’t|never|no)\b/i.test(text))
            .map((words) => ({
              place: placeOf(step.place.block, words),
              message:
                'Oven-hot glass, enamel and stone crack when water hits them, and the steam scalds. Use a bare metal ' +
                'tray, gloves, and stand to the side.',
            }))
        : [],
    ),
});
