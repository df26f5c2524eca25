import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { HEATS, keywordPlace } from '../method';
import { named } from '../words';

export const eggNotCooked = defineCheck({
  code: 'egg-not-cooked',
  severity: 'warning',
  title: 'Raw egg that goes on after the oven',
  why: 'A custard, filling or glaze with egg that is put on after the last bake is eaten raw unless its own steps cook it.',
  source: 'US federal chart of safe minimum temperatures: egg dishes 160 F (71 C)',
  trips: loaf({
    after: '\ncustard\n  200 g     milk\n  80 g      egg yolks\n  60 g      sugar\n',
    steps: [
      'preheat     45 min at 235 C', 'bake        40 min at 235 C', 'cool        1 h',
      '«fill»        10 min, add custard',
    ],
  }),
  passes: loaf({
    after: '\ncustard\n  200 g     milk\n  80 g      egg yolks\n  60 g      sugar\n  boil      5 min\n',
    steps: [
      'preheat     45 min at 235 C', 'bake        40 min at 235 C', 'cool        1 h',
      'fill        10 min, add custard',
    ],
  }),
  find: ({ formula }) => {
    if (formula === undefined) {
      return [];
    }
    const last = formula.method.reduce((at, { node }, index) => (HEATS.has(node.step) ? index : at), -1);
    if (last < 0) {
      return [];
    }
    return formula.method.slice(last + 1).flatMap((step): readonly Found[] =>
      step.node.details.flatMap((detail): readonly Found[] => {
        const part = detail.kind === 'add' ? formula.parts.find(({ key }) => key === detail.name.text.trim().toLowerCase()) : undefined;
        const raw = part !== undefined && part.lines.some(({ role, name }) => role === 'egg' && !/pasteuri[sz]ed|boiled|cooked|dried/i.test(name));
        // What stands in its steps in words may well be cooking.
        const cooked = part?.steps.some(({ node }) => HEATS.has(node.step) || node.step === 'do' || node.details.some(({ kind }) => kind === 'until-core')) === true;
        return part === undefined || !raw || cooked
          ? []
          : [
              {
                place: keywordPlace(step),
                message:
                  `${named(part.name)} has raw egg in it and goes on after the last bake, so nothing cooks it. Cook it ` +
                  `in its own steps (until 71 C), or take pasteurised egg.`,
              },
            ];
      }),
    );
  },
});
