import { describe, expect, it } from 'vitest';
import { bulkHoursAt, bulkReport, cultureOf, equalHours, journeyOf, levainReport, retardReport } from '../../../server/core/fermentation';
import { parseLocalInstant } from '../../../server/core/timeline/clock';
import { timelineOf } from '../../../server/core/timeline/timeline';
import { analyseFormula } from '../bake';

const LOAF = `formula "Market loaf"
  makes     2 loaves
  room      21 C
  fridge    4 C

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  900 g     bread flour
  620 g     water
  all       levain
  20 g      salt

steps
  mix         8 min, by hand
  bulk        4 h at 24 C
    fold      at 60 min
  divide      10 min
  shape       10 min
  retard      12 h
  preheat     60 min at 240 C
  bake        40 min at 240 C
  cool        2 h
`;

const formulaOf = (text: string) => analyseFormula(text).formula;

describe('the culture of a dough', () => {
  it('is the levain, yeast, whichever leads, or nothing', () => {
    expect(cultureOf(formulaOf(LOAF))).toMatchObject({ organism: 'sourdough yeast', hasStarter: true, freshYeastPct: 0 });
    const pinch = formulaOf(LOAF.replace('20 g      salt', '20 g      salt\n  0.5 g     instant yeast'));
    expect(cultureOf(pinch)).toMatchObject({ organism: 'sourdough yeast', hasStarter: true });
    const spoon = formulaOf(LOAF.replace('20 g      salt', '20 g      salt\n  4 g     instant yeast'));
    expect(cultureOf(spoon).organism).toBe("baker's yeast");
    expect(cultureOf(spoon).freshYeastPct).toBeCloseTo((100 * 4) / 0.4 / 966, 6);
    expect(cultureOf(formulaOf('formula "Soda"\n\ndough\n  500 g flour\n  300 g water\n  8 g baking soda\n')).organism).toBeNull();
  });
});

describe('the way of a dough', () => {
  it('starts as the head asks, and takes on the temperature of each place', () => {
    const { legs, startBy, startCelsius } = journeyOf(formulaOf(LOAF));
    expect(startBy).toBe('head');
    expect(startCelsius).toBe(25);
    expect(legs.map(({ kind }) => kind)).toEqual(['bulk', 'divide', 'shape', 'retard']);
    const [bulk, divide, shape, retard] = legs;
    expect(bulk?.endCelsius).toBeLessThan(25);
    expect(bulk?.endCelsius).toBeGreaterThan(24);
    expect(divide?.ambientCelsius).toBe(21);
    expect(shape?.endCelsius).toBeLessThan(bulk?.endCelsius ?? NaN);
    expect(retard?.ambientCelsius).toBe(4);
    expect(retard?.endCelsius).toBeCloseTo(4, 1);
    expect(retard?.timeConstantHours?.mid).toBeLessThan(bulk?.timeConstantHours?.mid ?? NaN);
  });

  it('starts as its water says when the water says', () => {
    const cold = journeyOf(formulaOf(LOAF.replace('620 g     water', '620 g     water at 12 C')));
    expect(cold.startBy).toBe('lines');
    expect(cold.startCelsius).toBeLessThan(20);
  });

  it('goes by the lengths of a timeline where there is one', () => {
    const formula = formulaOf(LOAF.replace('retard      12 h', 'retard      10 to 16 h'));
    expect(journeyOf(formula).legs.at(-1)?.hours).toEqual({ low: 10, high: 16 });
    const ready = parseLocalInstant('2026-03-14 08:00', 'Europe/Lisbon');
    if (ready.kind === 'bad') throw new Error(ready.message);
    const timeline = timelineOf(formula, { anchor: { kind: 'ready', epochMs: ready.epochMs }, zone: 'Europe/Lisbon' });
    expect(journeyOf(formula, timeline).legs.at(-1)?.hours).toEqual({ low: 13, high: 13 });
  });
});

describe('a bulk', () => {
  it('is a claim at its temperature, and longer in a cooler room', () => {
    const [report] = bulkReport(formulaOf(LOAF));
    expect(report).toMatchObject({ claimedHours: { low: 4, high: 4 }, claimedCelsius: 24, startCelsius: 25 });
    expect(report?.roomHours).toEqual(equalHours('sourdough yeast', 4, 24, 21));
    expect(report?.equivalentHours?.mid).toBeGreaterThan(4);
    expect(report?.equivalentHours?.mid).toBeLessThan(4.2);
  });

  it('claims for the room when it says no other temperature', () => {
    expect(bulkReport(formulaOf(LOAF.replace('bulk        4 h at 24 C', 'bulk        4 h')))[0]).toMatchObject({ claimedCelsius: 21, roomHours: null });
  });

  it('gets less than it claims when the dough comes cold from the mixer', () => {
    const [report] = bulkReport(formulaOf(LOAF.replace('620 g     water', '620 g     water at 8 C')));
    expect(report?.equivalentHours?.mid).toBeLessThan(3.7);
  });

  it('is asked for another temperature', () => {
    const [report] = bulkReport(formulaOf(LOAF));
    if (!report) throw new Error('no bulk');
    expect(bulkHoursAt(report, 27)?.mid).toBeLessThan(4);
    expect(bulkHoursAt(report, 24)?.mid).toBeCloseTo(4, 9);
    expect(bulkHoursAt(report, 40)).toBeNull();
  });

  it('knows what salt does once it has the totals', () => {
    const { formula, totals } = analyseFormula(LOAF);
    expect(bulkReport(formula)[0]?.saltFactor).toBeNull();
    expect(bulkReport(formula, totals)[0]?.saltFactor).toBeCloseTo(0.9 + ((2 - 2000 / 966) / 0.5) * 0.1, 6);
    expect(bulkReport(formula, totals)[0]?.sugarFactor).toBe(1);
  });

  it('has no times for a dough that nothing raises', () => {
    const [report] = bulkReport(formulaOf('formula "Flat"\n  room 21 C\n\ndough at 24 C\n  500 g flour\n  300 g water\n\nsteps\n  bulk 1 h at 26 C\n'));
    expect(report).toMatchObject({ equivalentHours: null, roomHours: null });
  });
});

describe('a levain', () => {
  const verdict = (ripen: string) => levainReport(formulaOf(LOAF.replace('ripen     8 h at 24 C', ripen)))[0];

  it('is ripe, not yet, or past it', () => {
    expect(verdict('ripen 8 h at 24 C')).toMatchObject({ ripeness: 'about ripe', raisedBy: 'starter', inoculationPct: 20, unknown: null });
    expect(verdict('ripen 2 h at 24 C')?.ripeness).toBe('not ripe yet');
    expect(verdict('ripen 20 h at 24 C')?.ripeness).toBe('past its peak');
    expect(verdict('ripen 8 h at 16 C')?.ripeness).toBe('not ripe yet');
  });

  it('goes on ripening slowly in the fridge', () => {
    const alone = verdict('ripen 4 h at 24 C');
    const kept = verdict('ripen 4 h at 24 C\n  chill 12 h at 4 C');
    expect(kept?.ripenedHours?.high).toBeGreaterThan(alone?.ripenedHours?.high ?? NaN);
    expect(kept?.ripenedHours?.high).toBeLessThan(8);
  });

  it('says why there is no answer', () => {
    expect(verdict('keep 10 g')).toMatchObject({ ripeness: null, unknown: 'No step says how long it ripens.' });
    expect(verdict('ripen 8 h at 38 C')).toMatchObject({ ripeness: null, peakHours: null });
    const both = levainReport(formulaOf(LOAF.replace('12 g      starter', '12 g      starter\n  1 g fresh yeast')))[0];
    expect(both?.unknown).toContain('both starter and yeast');
  });

  it('may be fed from a levain made before it', () => {
    const two = LOAF.replace('levain\n', 'levain "first"\n  20 g bread flour\n  20 g water\n  4 g starter\n  ripen 6 h at 26 C\n\nlevain\n').replace('12 g      starter', '12 g      first');
    const reports = levainReport(formulaOf(two));
    expect(reports).toHaveLength(2);
    expect(reports[1]?.feeding).toEqual({ seed: 12, flour: 60, water: 60 });
    expect(reports[1]?.ripeness).toBe('about ripe');
  });

  it('with yeast goes by the table of preferments', () => {
    const poolish = (yeast: string) => levainReport(formulaOf(`formula "Poolish loaf"
  room 22 C

poolish
  300 g bread flour
  300 g water at 20 C
  ${yeast}
  ripen 13 h at 22 C

dough
  700 g bread flour
  360 g water
  all poolish
  20 g salt
`))[0];
    expect(poolish('0.3 g fresh yeast')).toMatchObject({ raisedBy: 'yeast', ripeness: 'about ripe' });
    expect(poolish('0.3 g fresh yeast')?.peakHours?.mid).toBeCloseTo(13.5, 6);
    expect(poolish('2 g fresh yeast')?.ripeness).toBe('past its peak');
    expect(poolish('9 g fresh yeast')).toMatchObject({ peakHours: null, ripeness: null });
  });
});

describe('a retard', () => {
  it('goes on fermenting while it cools, and then hardly at all', () => {
    const [report] = retardReport(formulaOf(LOAF));
    expect(report).toMatchObject({ kind: 'retard', fridgeCelsius: 4, referenceCelsius: 24 });
    expect(report?.addedHours?.mid).toBeGreaterThan(0.5);
    expect(report?.addedHours?.mid).toBeLessThan(3.15);
    expect(report?.souringHours?.mid).toBeGreaterThan(report?.addedHours?.mid ?? NaN);
    expect(report?.hoursToStandstill?.mid).toBeGreaterThan(1);
    expect(report?.addedHours?.low).toBeLessThan(report?.addedHours?.mid ?? NaN);
    expect(report?.addedHours?.high).toBeGreaterThan(report?.addedHours?.mid ?? NaN);
  });

  it('adds more to a large piece than to small ones', () => {
    const added = (makes: string) => retardReport(formulaOf(LOAF.replace('2 loaves', makes)))[0]?.addedHours?.mid ?? NaN;
    expect(added('1 loaf')).toBeGreaterThan(added('2 loaves'));
    expect(added('2 loaves')).toBeGreaterThan(added('16 rolls'));
  });

  it('never stands still in a cellar', () => {
    expect(retardReport(formulaOf(LOAF.replace('retard      12 h', 'retard      12 h at 12 C')))[0]?.hoursToStandstill).toBeNull();
  });

  it('cannot say without a temperature', () => {
    const [report] = retardReport(formulaOf(LOAF.replace('  fridge    4 C\n', '')));
    expect(report).toMatchObject({ fridgeCelsius: null, addedHours: null, endCelsius: null });
  });
});
