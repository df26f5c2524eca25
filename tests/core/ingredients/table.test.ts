import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROLES } from '../../../grammar';
import { EU_ALLERGENS, US_ALLERGENS } from '../../../server/core/ingredients/allergens';
import { BUILT_IN } from '../../../server/core/ingredients/builtin';
import { DERIVED } from '../../../server/core/ingredients/derived';
import { TABLE } from '../../../server/core/ingredients/table';
import { CSV_HEADER, CSV_RECORDS, CSV_ROWS, cell } from './csv';

const room = path.join(import.meta.dirname, '../../../server/core/ingredients');

/** Every row as an ingredient, by its key; the derived forms that share a key are left out. */
const byKey = new Map(BUILT_IN.slice(0, TABLE.length).map(({ ingredient }) => [ingredient.key, ingredient]));

describe('the ingredient table', () => {
  it('is what the generator gives from the CSV', () => {
    expect(() => execFileSync(process.execPath, [path.join(room, 'generate.mjs'), '--check'], { stdio: 'pipe' })).not.toThrow();
  });

  it('comes from a CSV of 267 rows, 36 columns each, every key once', () => {
    expect(CSV_RECORDS).toHaveLength(267);
    expect(CSV_HEADER).toHaveLength(36);
    expect(CSV_ROWS.filter((row) => row.length !== 36)).toEqual([]);
    expect(new Set(CSV_RECORDS.map(({ key }) => key)).size).toBe(267);
    expect(CSV_RECORDS.filter(({ provenance }) => provenance !== 'file')).toEqual([]);
  });

  it('carries every cell of the CSV over, empty as null', () => {
    for (const record of CSV_RECORDS) {
      const ingredient = byKey.get(record.key!);
      const sodium = cell(record, 'sodium_mg');
      expect(ingredient, record.key).toMatchObject({
        label: record.label,
        composition: {
          water: cell(record, 'water_g'),
          protein: cell(record, 'protein_g'),
          fat: cell(record, 'fat_g'),
          saturated: cell(record, 'saturated_g'),
          carbohydrate: cell(record, 'carbohydrate_g'),
          carbohydrateBasis: record.carbohydrate_basis,
          sugars: cell(record, 'sugars_g'),
          fibre: cell(record, 'fibre_g'),
          alcohol: cell(record, 'alcohol_g'),
          salt: sodium === null ? null : (sodium * 2.5421) / 1000,
        },
        eachGrams: cell(record, 'each_g'),
        eachOf: record.each_of,
        allergens: {
          eu: record.allergens_eu!.split(';').filter(Boolean),
          us: record.allergens_us!.split(';').filter(Boolean),
          checkLabel: record.allergens_check_label!.split(';').filter(Boolean),
        },
      });
      expect(ingredient?.source, record.key).toContain(record.source_id);
      // The two departures from the source that README.md names.
      const cup = record.key === 'agave' || record.key === 'water' ? null : cell(record, 'g_per_cup');
      const fluidOunce = record.key === 'water' ? null : cell(record, 'g_per_fl_oz');
      const density = record.key === 'water' ? 1 : cell(record, 'density_g_per_ml');
      expect(ingredient?.gramsPerMl, record.key).toBe(density);
      expect(
        ['tsp', 'tbsp', 'cup', 'fl oz'].map((unit) => ingredient?.gramsPerMeasure[unit as 'tsp'] ?? null),
        record.key,
      ).toEqual([cell(record, 'g_per_tsp'), cell(record, 'g_per_tbsp'), cup, fluidOunce]);
    }
  });

  it('holds no component over 100 g, none below 0, no saturated fat over fat', () => {
    for (const { ingredient } of BUILT_IN) {
      const { carbohydrateBasis: _, ...grams } = ingredient.composition;
      for (const [name, value] of Object.entries(grams)) {
        if (value === null) continue;
        expect(value, `${ingredient.key} ${name}`).toBeGreaterThanOrEqual(0);
        expect(value, `${ingredient.key} ${name}`).toBeLessThanOrEqual(100);
      }
      // The source rounds the fat of tea to 0 and its saturated part to 0.002.
      if (ingredient.key !== 'tea-black') expect(grams.saturated ?? 0, ingredient.key).toBeLessThanOrEqual(grams.fat ?? 100);
    }
  });

  it('gives every ingredient one of the roles, and water alone as water', () => {
    for (const { ingredient } of BUILT_IN) expect(ROLES, ingredient.key).toContain(ingredient.role);
    expect(BUILT_IN.filter(({ ingredient }) => ingredient.isWater).map(({ ingredient }) => ingredient.key)).toEqual(['water']);
  });

  it.each([
    ['flour', 'bread-flour rye-flour-dark semolina corn-meal buckwheat-flour chickpea-flour'],
    ['absorber', 'cocoa-powder-dutch milk-powder wheat-bran oat-flakes potato-flakes corn-starch vital-gluten malt-flour bread-crumbs'],
    ['inclusion', 'walnuts figs-dried fig sesame-seeds olives-black cheddar chocolate-dark-70 rye-grain peel-candied-orange carrot'],
    ['leaven', 'yeast-fresh yeast-dry-active baking-powder baking-soda'],
    ['dairy', 'milk-whole yogurt ricotta cream-cheese'],
    ['other', 'pumpkin-puree potato-boiled banana tahini'],
    ['spice', 'cinnamon vanilla-extract lemon-peel caraway-seeds garlic'],
    ['liquid', 'water beer coconut-milk'],
    ['fat', 'butter-unsalted olive-oil'],
    ['egg', 'egg-whole egg-yolk'],
    ['salt', 'salt'],
    ['sweetener', 'honey sugar-white'],
  ])('counts as %s: %s', (role, keys) => {
    for (const key of keys.split(' ')) expect(byKey.get(key)?.role, key).toBe(role);
  });

  it('calls whole grain only what is flour', () => {
    for (const { ingredient } of BUILT_IN) {
      if (ingredient.wholeGrain) expect(ingredient.role, ingredient.key).toBe('flour');
    }
    expect(byKey.get('whole-wheat-flour')?.wholeGrain).toBe(true);
    expect(byKey.get('rye-flour-whole')?.wholeGrain).toBe(true);
    expect(byKey.get('bread-flour')?.wholeGrain).toBe(false);
    expect(byKey.get('rye-flour-light')?.wholeGrain).toBe(false);
  });

  it('names allergens only by classes of the two lists', () => {
    const eu = new Set(EU_ALLERGENS.map(({ id }) => id));
    const us = new Set(US_ALLERGENS.map(({ id }) => id));
    expect(eu.size).toBe(14);
    expect(us.size).toBe(9);
    for (const { ingredient } of BUILT_IN) {
      for (const id of ingredient.allergens.eu) expect(eu, `${ingredient.key} ${id}`).toContain(id.split(':')[0]);
      for (const id of ingredient.allergens.us) expect(us, `${ingredient.key} ${id}`).toContain(id.split(':')[0]);
    }
  });

  it('derives every other form from a row that is there', () => {
    for (const form of DERIVED) expect(byKey.has(form.from), form.key).toBe(true);
    expect(BUILT_IN).toHaveLength(TABLE.length + DERIVED.length);
  });

  it('is described in README.md: every role that is not its group’s, every whole grain, every derived form', () => {
    const readme = readFileSync(path.join(room, 'README.md'), 'utf8');
    const usual: Record<string, string> = {
      leavening: 'leaven', grain: 'inclusion', 'cocoa-chocolate': 'inclusion', nut: 'inclusion', seed: 'inclusion', fruit: 'inclusion',
      vegetable: 'inclusion', cheese: 'inclusion',
    };
    const decided = CSV_RECORDS.filter(({ key, group }) => {
      const ingredient = byKey.get(key!);
      return ingredient?.wholeGrain === true || ingredient?.role !== (usual[group!] ?? group);
    });
    expect(decided.length).toBeGreaterThan(40);
    const keys = [...decided.map(({ key }) => key!), ...DERIVED.map(({ key }) => key)];
    expect(keys.filter((key) => !readme.includes(`\`${key}\``))).toEqual([]);
  });
});
