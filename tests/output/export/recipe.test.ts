/** The recipe for other programs: held by the TypeScript compiler against the vocabulary as schema-dts has it, and true to the formula. */
import path from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { exported } from '../../../server/output/export/forms';
import { exportsOf, NASTY, SAMPLES, sampleEntries } from './samples';

interface Recipe {
  readonly [key: string]: unknown;
  readonly name: string;
  readonly description: string;
  readonly prepTime?: string;
  readonly cookTime?: string;
  readonly totalTime?: string;
  readonly nutrition?: Readonly<Record<string, string>>;
  readonly recipeInstructions: readonly { readonly name: string; readonly itemListElement: readonly { readonly text: string }[] }[];
}

function recipesOf(json: string): readonly Recipe[] {
  const data = JSON.parse(json) as Recipe & { readonly '@graph'?: readonly Recipe[] };
  return data['@graph'] ?? [data];
}

function recipeOf(text: string, ready?: string): Recipe {
  return recipesOf(exported('jsonld', exportsOf(text, ready), 0))[0]!;
}

/** What the compiler has against these texts as values of the vocabulary: unknown words, values of another kind. */
function faultsIn(texts: readonly string[]): readonly string[] {
  const name = path.join(import.meta.dirname, 'vocabulary.check.ts');
  const source = [
    "import type { Graph, Recipe, WithContext } from 'schema-dts';",
    ...texts.map((text, at) => `export const document${String(at)}: ${text.includes('"@graph"') ? 'Graph' : 'WithContext<Recipe>'} = ${text};`),
  ].join('\n');
  const options: ts.CompilerOptions = { strict: true, noEmit: true, module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler, target: ts.ScriptTarget.ES2022, types: [], skipLibCheck: true };
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists } = host;
  host.fileExists = (file) => file === name || fileExists(file);
  host.getSourceFile = (file, version) => (file === name ? ts.createSourceFile(file, source, version) : getSourceFile(file, version));
  const program = ts.createProgram([name], options, host);
  return ts.getPreEmitDiagnostics(program).map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}

describe('the vocabulary', () => {
  test('has every word that is used, for what it is used for', async () => {
    const texts = await Promise.all(SAMPLES.map(async (sample) => exported('jsonld', await sampleEntries(sample), 0)));
    const others = [exported('jsonld', exportsOf(NASTY), 0), exported('jsonld', await sampleEntries('mistakes.bake'), 0), exported('jsonld', exportsOf('formula "Not begun"\n'), 0)];
    expect(faultsIn([...texts, ...others])).toEqual([]);
  });

  test('a word or a kind of value that it does not have would be found', () => {
    const document = (more: string): string => `{ "@context": "https://schema.org", "@type": "Recipe", "name": "X", ${more} }`;
    expect(faultsIn([document('"recipeYield": "2 loaves"')])).toEqual([]);
    expect(faultsIn([document('"recipeAllergens": "milk"')])).toHaveLength(1);
    expect(faultsIn([document('"author": { "@type": "Loaf", "name": "X" }')]).length).toBeGreaterThan(0);
    expect(faultsIn([document('"nutrition": { "@type": "NutritionInformation", "kilojoules": "100 kJ" }')]).length).toBeGreaterThan(0);
  });
});

const PLAIN = `formula "Plain"
  makes     2 loaves of 800 g
  loses     12 % in the oven

dough
  1000 g    bread flour
  600 g     water

steps
`;

describe('times', () => {
  test('fermentation is in the whole, of a range its middle', () => {
    const { prepTime, cookTime, totalTime } = recipeOf(`${PLAIN}  mix    10 min, by hand\n  bulk   3 to 4 h at 24 C\n  shape  20 min\n  proof  1 h\n  bake   40 to 50 min at 230 C\n  cool   2 h\n`);
    expect({ prepTime, cookTime, totalTime }).toEqual({ prepTime: 'PT30M', cookTime: 'PT45M', totalTime: 'PT7H45M' });
  });

  test('those of the day that was asked for', () => {
    const text = `${PLAIN}  mix    10 min\n  bulk   3 h at 24 C\n  bake   40 min at 230 C\n`;
    expect(recipeOf(text, '2027-03-13 08:00').totalTime).toBe('PT3H50M');
    expect(recipeOf(text, '2027-03-13 08:00').recipeInstructions[0]!.itemListElement[0]!.text).toBe('Mix 10 min (04:10).');
  });

  test('a rise or a bake that nobody gave a length leaves its times out', () => {
    const { prepTime, cookTime, totalTime } = recipeOf(`${PLAIN}  mix    10 min\n  bulk   at 24 C\n  bake   at 230 C\n`);
    expect({ prepTime, cookTime, totalTime }).toEqual({ prepTime: 'PT10M', cookTime: undefined, totalTime: undefined });
    expect(recipeOf(PLAIN).totalTime).toBeUndefined();
  });
});

describe('what nobody wrote', () => {
  test('is not in it: no date, no author, no diet, no picture', async () => {
    for (const sample of SAMPLES) {
      for (const [index, recipe] of recipesOf(exported('jsonld', await sampleEntries(sample), 0)).entries()) {
        for (const word of ['datePublished', 'suitableForDiet', 'image', 'aggregateRating', 'recipeCategory']) expect(Object.keys(recipe)).not.toContain(word);
        const { section } = (await sampleEntries(sample))[index]!;
        expect('author' in recipe).toBe(section.blocks.some(({ text }) => /^\s+author /m.test(text)));
      }
    }
  });

  test('a figure that an ingredient does not tell is left out, and no figure is nothing', async () => {
    const [flatbread] = recipesOf(exported('jsonld', exportsOf('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n  100 g  "moon cheese"\n'), 0));
    expect(flatbread!.nutrition).toBeUndefined();
    const [tin] = recipesOf(exported('jsonld', await sampleEntries('seeded-tin.bake'), 0));
    expect(tin!.nutrition).toMatchObject({ servingSize: '1 slice (50 g)' });
    expect(tin!.nutrition).not.toHaveProperty('saturatedFatContent');
  });
});

test('allergens and cautions, which the vocabulary has no word for, are in the description', async () => {
  const [knots] = recipesOf(exported('jsonld', await sampleEntries('knots.bake'), 0));
  expect(knots!.description).toContain('Allergens, EU list: cereals containing gluten (wheat), eggs, milk.');
  expect(knots!.description).toContain('Flour is raw food.');
  expect(knots!.description).toMatch(/Local food rules come first\.$/);
});

test('a piece that is eaten whole is the serving; bread is sliced', async () => {
  const [knots] = recipesOf(exported('jsonld', await sampleEntries('knots.bake'), 0));
  expect(knots!.nutrition!['servingSize']).toMatch(/^1 knot \(\d+ g\)$/);
});

test('a section for each part in the order made, and a fold says what it is in', async () => {
  const [loaf] = recipesOf(exported('jsonld', await sampleEntries('apricot-hearth.bake'), 0));
  expect(loaf!.recipeInstructions.map(({ name }) => name)).toEqual(['Levain', 'Seeds', 'Dough']);
  expect(loaf!.recipeInstructions[2]!.itemListElement.map(({ text }) => text)).toContain('During the bulk: fold after 1 h, add half of the seeds (125 g), add half of the dried apricots (125 g).');
});

test('can stand in a page as it is: nothing in it ends a script', () => {
  const text = exported('jsonld', exportsOf(NASTY), 0);
  expect(text).not.toContain('<');
  expect(recipesOf(text)[0]!.name).toBe('<script>alert(1)</script> & `Co` | *pão* ]]>');
});
