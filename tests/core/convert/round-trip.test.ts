/** What is exported as data of schema.org and converted again says the same amounts, and exported once more the same list. */
import { describe, expect, it } from 'vitest';
import { convert } from '../../../server/core/convert/convert';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { exported, type ExportEntry } from '../../../server/output/export/forms';
import { exportsOf, sampleEntries } from '../../output/export/samples';

interface Recipe {
  readonly name: string;
  readonly recipeIngredient: readonly string[];
}

function recipesOf(entries: readonly ExportEntry[]): readonly Recipe[] {
  const data = JSON.parse(exported('jsonld', entries, 0)) as Recipe & { readonly '@graph'?: readonly Recipe[] };
  return data['@graph'] ?? [data];
}

/** Name and grams of every line, in the order of names; a line without a weight has NaN. */
function amounts({ recipeIngredient }: Recipe): readonly (readonly [name: string, grams: number])[] {
  const read = recipeIngredient.map((line) => {
    const [, number = 'NaN', unit = '', name = line] = /^([\d.]+) (k?g) ([\p{L}\p{M} '’-]+)/u.exec(line) ?? [];
    return [name.trim(), Number(number) * (unit === 'kg' ? 1000 : 1)] as const;
  });
  return read.sort(([a, x], [b, y]) => a.localeCompare(b) || x - y);
}

const SAMPLES = ['country-loaf.bake', 'seeded-tin.bake', 'knots.bake', 'apricot-hearth.bake', 'yogurt-flatbread.bake'] as const;
/** Printed weights add up to their printed total, so one may be a gram more or less from one print to the next. */
const ROUNDING_GRAMS = 1;

describe.each(SAMPLES)('%s', (name) => {
  it('has every exported weight in its draft, as it was exported', async () => {
    const entries = await sampleEntries(name);
    const converted = convert(exported('jsonld', entries, 0), { catalogue: builtInCatalogue });
    const text = converted.kind === 'drafted' ? converted.text : '';
    for (const line of recipesOf(entries).flatMap(({ recipeIngredient }) => recipeIngredient)) {
      const [weight] = /^[\d.]+ k?g(?= )/.exec(line) ?? [];
      if (weight === undefined) continue;
      const word = line.slice(weight.length + 1).split(/[ ,(]/)[0] ?? '';
      expect(text).toMatch(new RegExp(`^ +(?:\\S+ )*\\(?${weight.replace('.', '\\.')}\\)? +${word}`, 'm'));
    }
  });

  it('is the same list again when the draft is exported', async () => {
    const entries = await sampleEntries(name);
    const before = recipesOf(entries);
    const converted = convert(exported('jsonld', entries, 0), { catalogue: builtInCatalogue });
    if (converted.kind === 'nothing') throw new Error(converted.message);
    const after = recipesOf(exportsOf(converted.text));
    expect(after.map((recipe) => recipe.name)).toEqual(before.map((recipe) => recipe.name));
    before.forEach((recipe, index) => {
      const [was, is] = [amounts(recipe), amounts(after[index]!)];
      expect(is.map(([line]) => line)).toEqual(was.map(([line]) => line));
      was.forEach(([line, grams], at) => {
        if (!Number.isNaN(grams)) expect(Math.abs(is[at]![1] - grams), `${line}: ${is[at]![1]} for ${grams}`).toBeLessThanOrEqual(ROUNDING_GRAMS);
      });
    });
  });
});
