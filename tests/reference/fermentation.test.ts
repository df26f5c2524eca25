/** Fermentation against published rates, rules and measurements. */
import { describe, expect } from 'vitest';
import {
  BAKERS_YEAST_BY_DEGREE, cardinalRate, dilutionOf, doublingsFor, equivalentHours, flourOfStageBefore, hoursToBestPh, onEqualSolids, perYeast, q10,
  q10FromDoubling, relativeRate, ryeSourFactor, SOURDOUGH_BACTERIA, SOURDOUGH_YEAST, SUGAR_FACTOR, tenPerCentADegree, YEAST_DOUBLING, YEAST_FOR_FRESH, yeastAs,
} from '../../server/core/fermentation';
import { builtInCatalogue } from '../../server/core/ingredients/catalogue';
import { relaxedCelsius } from '../../server/core/temperature';
import { celsiusDegrees } from '../../server/core/units/temperature';
import { eachCheck, near, outside } from './outside';

type SourdoughOrganism = 'sourdough_yeast' | 'sourdough_LAB';
const CARDINAL = { sourdough_yeast: SOURDOUGH_YEAST, sourdough_LAB: SOURDOUGH_BACTERIA } as const;
const NAMED = { sourdough_yeast: 'sourdough yeast', sourdough_LAB: 'sourdough bacteria' } as const;

describe('growth and temperature', () => {
  eachCheck<{ organism: SourdoughOrganism; Tmin: number; Topt: number; Tmax: number; T: number }, { relative_rate: number }>(
    'fermentation.ctmi',
    (inputs, expected, { rate }) => {
      const cardinal = CARDINAL[inputs.organism];
      expect([cardinal.least, cardinal.best, cardinal.most]).toEqual([inputs.Tmin, inputs.Topt, inputs.Tmax]);
      near(cardinalRate(inputs.T, cardinal), expected.relative_rate, rate);
      near(relativeRate(NAMED[inputs.organism], inputs.T), expected.relative_rate, rate);
    },
  );

  eachCheck<{ organism: SourdoughOrganism; T: number }, { relative_growth_rate: number }>(
    'fermentation.published_anchor',
    (inputs, expected, { rate }) => near(relativeRate(NAMED[inputs.organism], inputs.T), expected.relative_growth_rate, rate),
  );

  /**
   * What the author of the growth study states of it: optimum, half and quarter of the best rate, and where growth ends.
   * Inside the range that the model is good for it agrees to 0.1 of the best rate; above the optimum published summaries and
   * curves differ by up to 0.35 among themselves, which is why times there are given with twice the leeway.
   */
  const STATED: readonly (readonly [organism: SourdoughOrganism, celsius: number, rate: number, within: number])[] = [
    ['sourdough_yeast', 28, 1, 1e-9], ['sourdough_yeast', 34, 0.25, 0.1], ['sourdough_yeast', 35, 0, 1e-9], ['sourdough_yeast', 8, 0, 1e-9],
    ['sourdough_LAB', 32, 1, 0.01], ['sourdough_LAB', 33, 1, 0.01], ['sourdough_LAB', 39, 0.25, 0.35], ['sourdough_LAB', 41, 0, 1e-9], ['sourdough_LAB', 4, 0, 1e-9],
  ];
  const stated = outside('published study', 'M. Gänzle, sourdough FAQ, “What factors affect microbial growth in sourdough?”; study: Gänzle, Ehmann, Hammes, Appl. Environ. Microbiol. 64 (1998) 2616-2623');
  for (const [organism, celsius, rate, within] of STATED) {
    stated(`${NAMED[organism]} at ${celsius} C grows at ${rate} of its best`, () => near(cardinalRate(celsius, CARDINAL[organism]), rate, within));
  }

  stated('nothing is faster than the stated optimum', () => {
    for (const { best, ...limits } of [SOURDOUGH_YEAST, SOURDOUGH_BACTERIA]) {
      for (let celsius = -5; celsius <= 50; celsius += 0.25) {
        if (celsius !== best) expect(cardinalRate(celsius, { best, ...limits }), `${celsius} C`).toBeLessThan(1);
      }
    }
  });

  stated('from 26 C up the bacteria gain on the yeast with every degree, and above 32 C repeated refreshments lose it', () => {
    const lead = (celsius: number) => cardinalRate(celsius, SOURDOUGH_BACTERIA) / cardinalRate(celsius, SOURDOUGH_YEAST);
    for (let celsius = 26; celsius < 34; celsius += 1) expect(lead(celsius + 1), `${celsius} C`).toBeGreaterThan(lead(celsius));
    expect(lead(32)).toBeGreaterThan(1.2);
  });

  eachCheck<{ reference_hours: number; reference_C: number; actual_C: number; rate_change_per_C: number }, { hours: number }>(
    'fermentation.time_at_temperature',
    (inputs, expected, { hours }) => {
      expect(BAKERS_YEAST_BY_DEGREE.value).toBe(inputs.rate_change_per_C);
      const ratio = relativeRate("baker's yeast", inputs.reference_C) / relativeRate("baker's yeast", inputs.actual_C);
      near(inputs.reference_hours * ratio, expected.hours, hours);
    },
  );

  eachCheck<{ rate_change_per_C?: number; doubling_interval_F?: number }, { q10: number; doubling_interval_C?: number }>(
    'fermentation.q10',
    (inputs, expected, tolerance) => {
      if (inputs.rate_change_per_C !== undefined) near(q10(inputs.rate_change_per_C), expected.q10, tolerance.q10);
      else {
        const degrees = celsiusDegrees(inputs.doubling_interval_F ?? NaN);
        near(degrees, expected.doubling_interval_C ?? NaN, tolerance.degrees);
        near(q10FromDoubling(degrees), expected.q10, tolerance.q10);
      }
    },
  );

  eachCheck<{ reference_C: number; rate_change_per_C: number; segments: { hours: number; C: number }[] }, { equivalent_hours_at_reference: number }>(
    'fermentation.work_integral',
    (inputs, expected, { hours }) => {
      const stages = inputs.segments.map((segment) => ({ hours: segment.hours, ambientCelsius: segment.C, timeConstantHours: 0 }));
      near(equivalentHours(tenPerCentADegree, inputs.reference_C, inputs.reference_C, stages).hours, expected.equivalent_hours_at_reference, hours);
    },
  );
});

describe('feeding and ripening', () => {
  interface Parts { seed_parts: number; flour_parts: number; water_parts: number }
  const feeding = (parts: Parts) => ({ seed: parts.seed_parts, flour: parts.flour_parts, water: parts.water_parts });

  eachCheck<
    Parts & { vs?: Parts; doubling_time_h: number; rule?: string; hours: number },
    { dilution_a: number; dilution_b: number; extra_hours: number; multiplication_factor: number }
  >('fermentation.feed_ratio', (inputs, expected, { hours }) => {
    if (inputs.vs === undefined) {
      expect(ryeSourFactor(inputs.hours)).toEqual({ low: expected.multiplication_factor, mid: expected.multiplication_factor, high: expected.multiplication_factor });
      return;
    }
    const a = dilutionOf(feeding(inputs));
    const b = dilutionOf(feeding(inputs.vs));
    expect([a, b]).toEqual([expected.dilution_a, expected.dilution_b]);
    expect(YEAST_DOUBLING.value).toBe(inputs.doubling_time_h);
    near((doublingsFor(b) - doublingsFor(a)) * inputs.doubling_time_h, expected.extra_hours, hours);
  });

  eachCheck<{ rye_flour_g: number; acidified_flour_pct: number; stage3_hours: number }, { full_sour_flour_g: number; basic_sour_flour_g: number }>(
    'bakers_percent.multistage_rye',
    (inputs, expected, { grams }) => {
      const full = (inputs.rye_flour_g * inputs.acidified_flour_pct) / 100;
      near(full, expected.full_sour_flour_g, grams);
      near(flourOfStageBefore(full, inputs.stage3_hours), expected.basic_sour_flour_g, grams);
    },
  );

  // Our number comes from the study's other one, 9 h at 35 C, by the growth of the bacteria.
  eachCheck<{ C: number }, { hours_to_optimum_pH: number }>('fermentation.ph_ready', (inputs, expected, { hours }) => {
    const ready = hoursToBestPh(inputs.C);
    near(ready?.mid, expected.hours_to_optimum_pH, hours);
    expect(ready?.low).toBeLessThan(expected.hours_to_optimum_pH);
    expect(ready?.high).toBeGreaterThan(expected.hours_to_optimum_pH);
  });
});

describe('sugar and yeast', () => {
  interface Dough { yeast_pct: number; sucrose_pct: number; co2_ml: number }

  eachCheck<{ plain: Dough; sweet: Dough }, { per_yeast_relative: number }>('fermentation.osmotic', (inputs, expected, { ratio }) => {
    const measured = perYeast({ gas: inputs.sweet.co2_ml, yeastPct: inputs.sweet.yeast_pct }, { gas: inputs.plain.co2_ml, yeastPct: inputs.plain.yeast_pct });
    near(measured, expected.per_yeast_relative, ratio);
    // The habit is milder than this strain: the table says so, and this is where that is checked.
    const habit = SUGAR_FACTOR.ordinary.points.find(([pct]) => pct >= inputs.sweet.sucrose_pct);
    expect(habit?.[1]).toBeGreaterThan(measured);
  });

  eachCheck<{ fresh_g: number; factors: { active_dry: number; instant: number } }, { active_dry_g: number; instant_g: number }>(
    'fermentation.yeast_conversion',
    (inputs, expected, { grams }) => {
      expect([YEAST_FOR_FRESH['active dry'].value, YEAST_FOR_FRESH.instant.value]).toEqual([inputs.factors.active_dry, inputs.factors.instant]);
      near(yeastAs(inputs.fresh_g, 'fresh', 'active dry'), expected.active_dry_g, grams);
      near(yeastAs(inputs.fresh_g, 'fresh', 'instant'), expected.instant_g, grams);
    },
  );

  eachCheck<{ compressed_moisture_pct: number; active_dry_moisture_pct: number }, { active_dry_per_fresh_on_equal_solids: number }>(
    'fermentation.yeast_solids',
    (inputs, expected, { ratio }) => {
      const moisture = (name: string) => builtInCatalogue.find(name)?.composition.water ?? NaN;
      expect([moisture('fresh yeast'), moisture('active dry yeast')]).toEqual([inputs.compressed_moisture_pct, inputs.active_dry_moisture_pct]);
      near(onEqualSolids(moisture('fresh yeast'), moisture('active dry yeast')), expected.active_dry_per_fresh_on_equal_solids, ratio);
    },
  );
});

describe('retarding', () => {
  interface Retard { start_C: number; fridge_C: number; time_constant_h: number; hours: number; reference_C: number }

  eachCheck<Retard, { core_C: number }>('fermentation.retard_cooling', (inputs, expected, { degrees }) => {
    near(relaxedCelsius(inputs.start_C, inputs.fridge_C, inputs.hours, inputs.time_constant_h), expected.core_C, degrees);
  });

  eachCheck<Retard, { equivalent_hours_at_reference: number }>('fermentation.retard_work', (inputs, expected, { hours }) => {
    const stages = [{ hours: inputs.hours, ambientCelsius: inputs.fridge_C, timeConstantHours: inputs.time_constant_h }];
    near(equivalentHours(tenPerCentADegree, inputs.reference_C, inputs.start_C, stages).hours, expected.equivalent_hours_at_reference, hours);
    // The yeast of the core, which slows down in the cold, must come out below the plain rule.
    const slowed = equivalentHours((celsius) => relativeRate("baker's yeast", celsius), inputs.reference_C, inputs.start_C, stages).hours;
    expect(slowed).toBeLessThan(expected.equivalent_hours_at_reference);
  });
});
