import { describe, expect, it } from 'vitest';
import { cautionsFor, type Caution, type CautionCode } from '../../../server/core/facts';
import { analyseFormula } from '../bake';

const cautionsIn = (text: string) => cautionsFor(analyseFormula(text).formula);
const codes = (text: string): readonly CautionCode[] => cautionsIn(text).map(({ code }) => code);
const the = (code: CautionCode, text: string): Caution => {
  const found = cautionsIn(text).find((caution) => caution.code === code);
  if (!found) throw new Error(`no ${code}`);
  return found;
};

const LOAF = (steps: string, lines = '') => `formula "Loaf"
  room      22 C
  fridge    4 C

dough
  500 g     bread flour
  350 g     water
${lines}
steps
${steps}`;

describe('cautions', () => {
  it('each have a source, and raw flour is one for every dough', () => {
    const all = cautionsIn(LOAF('  mix 5 min\n  bake 20 min at 240 C, lid on, with steam\n'));
    expect(all.map(({ code }) => code)).toEqual(['raw-flour', 'steam', 'hot-pot']);
    for (const { source, text } of all) expect([source.length > 5, text.length > 20]).toEqual([true, true]);
  });

  it('of steam, pots, fat and boiling water stand at the steps they are about', () => {
    const { formula, rangeOf } = analyseFormula(LOAF('  boil 1 min\n  bake 20 min at 240 C, lid on\n  bake 20 min at 220 C, lid off\n'));
    const pot = cautionsFor(formula).find(({ code }) => code === 'hot-pot');
    expect(pot?.places).toHaveLength(2);
    expect(rangeOf(pot!.places[0]!).start).toBeGreaterThan(0);
    expect(codes(LOAF('  boil 1 min\n  bake 20 min at 220 C\n'))).toEqual(['raw-flour', 'boiling-water']);
    expect(codes(LOAF('  fry 3 min\n'))).toEqual(['raw-flour', 'hot-fat']);
    expect(codes(LOAF('  bake 20 min at 220 C\n'))).toEqual(['raw-flour']);
  });

  it('tell whoever is handed the card of raw egg on top, and of honey', () => {
    const glazed = (egg: string): string => LOAF('  bake 20 min at 220 C\n  cool 1 h\n  glaze 5 min, add glaze\n', '').replace('\nsteps', `\nglaze\n  30 g      ${egg}\n  100 g     icing sugar\n\nsteps`);
    expect(the('raw-egg', glazed('egg whites')).text).toContain('in the glaze. Not for small children');
    expect(codes(glazed('pasteurised egg whites'))).toEqual(['raw-flour']);
    const sweet = the('honey', LOAF('  bake 20 min at 220 C\n', '  40 g      honey\n'));
    expect([sweet.text.includes('children under 12 months'), sweet.places.length, sweet.basis]).toEqual([true, 1, 'from memory']);
  });

  it('count the hours that eggs and milk stand out of the cold, before the heat and not in the fridge', () => {
    const rich = '  100 g     eggs\n';
    const long = the('out-of-the-cold', LOAF('  bulk 2 h to 2 h 30 min\n  retard 10 h\n  proof 1 h at 26 C\n  bake 20 min at 200 C\n  cool 3 h\n', rich));
    expect(long.text).toContain('Eggs in the dough: above 5 C for 3 h to 3 h 30 min before the heat.');
    expect(the('out-of-the-cold', LOAF('  bulk 2 h 20 min to 2 h 32 min\n  proof 1 h at 26 C\n  bake 20 min at 200 C\n', rich)).text).toContain('for 3 h 15 min to 3 h 45 min before');
    expect(the('out-of-the-cold', LOAF('  bulk 2 h 10 min\n  bake 20 min at 200 C\n', rich)).text).toContain('for 2 h to 2 h 15 min before');
    expect(long.places).toHaveLength(1);
    expect(codes(LOAF('  bulk 1 h\n  retard 10 h\n  bake 20 min at 200 C\n', rich))).toEqual(['raw-flour']);
    expect(codes(LOAF('  bulk 4 h\n  bake 20 min at 200 C\n', '  4 g     eggs\n'))).toEqual(['raw-flour']);
    expect(codes(LOAF('  bulk 90 min\n  preheat 1 h at 200 C\n  bake 20 min at 200 C\n', rich))).toEqual(['raw-flour']);
    const noFridge = LOAF('  bulk 1 h\n  retard 10 h\n  bake 20 min at 200 C\n', rich).replace('  fridge    4 C\n', '');
    expect(codes(noFridge)).toEqual(['raw-flour']);
    expect(codes(noFridge.replace('retard 10 h', 'retard 10 h at 12 C'))).toEqual(['raw-flour', 'out-of-the-cold']);
  });

  it('count a filling from where it goes in', () => {
    const filled = (steps: string) => `${LOAF('', '')}`.replace('\nsteps\n', `
filling "cheese"
  200 g     ricotta
  50 g      sugar

steps
${steps}`);
    expect(codes(filled('  bulk 4 h\n  fill 10 min\n  proof 1 h\n  bake 20 min at 200 C\n'))).toEqual(['raw-flour', 'cool-filling']);
    expect(codes(filled('  bulk 4 h\n  fill 10 min\n  proof 3 h\n  bake 20 min at 200 C\n'))).toEqual(['raw-flour', 'out-of-the-cold', 'cool-filling']);
  });

  it('are one for all parts that stand out of the cold, by the longest', () => {
    const text = LOAF('  bulk 2 h\n  bake 20 min at 200 C\n', '  all       sponge\n  100 g     eggs\n').replace('dough\n', 'sponge\n  100 g flour\n  100 g milk\n  2 g fresh yeast\n  ripen 2 h\n\ndough\n');
    const found = cautionsIn(text).filter(({ code }) => code === 'out-of-the-cold');
    expect(found).toHaveLength(1);
    expect(found[0]?.text).toContain('Milk in the sponge: above 5 C for 4 h before');
    const both = cautionsIn(text.replace('bulk 2 h', 'bulk 3 h')).filter(({ code }) => code === 'out-of-the-cold');
    expect(both[0]?.text).toContain('Milk, eggs, longest in the sponge: above 5 C for 5 h before');
    expect(both[0]?.places).toHaveLength(2);
  });

  const BAKE = (core: string) => `dish "Bread bake"
  serves    4
  room      21 C
  400 g     leeks

custard
  4 eggs
  350 g     milk

steps
  soak      30 min at 4 C
  bake      35 min at 180 C${core}
`;

  it('give the core of an egg dish, and say when the method stops short of it', () => {
    expect(the('egg-core', BAKE('')).text).toContain('71 C (160 F)');
    expect(the('egg-core', BAKE(', until core 74 C')).text).not.toContain('This one');
    const short = the('egg-core', BAKE(', until core 65 C'));
    expect(short.text).toContain('This one bakes to 65 C.');
    expect(short.places).toHaveLength(1);
    expect(codes(BAKE(''))).toEqual(['egg-core', 'cool-filling']);
  });
});
