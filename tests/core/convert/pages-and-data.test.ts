/** Pages and data of recipes: what is found in them, and what is said where nothing is. */
import { describe, expect, it } from 'vitest';
import { convert } from '../../../server/core/convert/convert';
import { plainLines, readPage } from '../../../server/core/convert/html';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';

function converted(text: string, name?: string) {
  const result = convert(text, { catalogue: builtInCatalogue, name });
  return result.kind === 'nothing' ? { text: '', notices: [], message: result.message } : { ...result, message: '' };
}

const recipe = (fields: Readonly<Record<string, unknown>>): string => JSON.stringify({ '@context': 'https://schema.org', '@type': 'Recipe', name: 'Stall bun', recipeIngredient: ['500 g bread flour', '300 g milk'], ...fields });

describe('data of schema.org', () => {
  it.each([
    ['the type alone', recipe({})],
    ['a list of types', recipe({ '@type': ['Thing', 'Recipe'] })],
    ['the type as an address', recipe({ '@type': 'http://schema.org/Recipe' })],
    ['a list around it', `[${recipe({})}]`],
    ['a graph around it', `{"@graph":[{"@type":"WebSite"},${recipe({})}]}`],
    ['another thing around it', `{"@type":"WebPage","mainEntity":${recipe({})}}`],
  ])('is found with %s', (_how, text) => {
    expect(converted(text).text).toContain('formula "Stall bun"\n\ndough\n  500 g     bread flour\n  300 g     milk\n');
  });

  it('a recipe that stands there twice is drafted once, two of one name get names of their own', () => {
    expect(converted(`[${recipe({})},${recipe({})}]`).text.match(/^formula/gm)).toHaveLength(1);
    expect(converted(`[${recipe({})},${recipe({ recipeIngredient: ['1 kg rye flour'] })}]`).text).toContain('formula "Stall bun 2"');
  });

  it.each([
    ['a text', '"Knead for 8 minutes.\\nBake at 220 C for 18 minutes."'],
    ['a text with marks', '"<ol><li>Knead for 8 minutes.</li><li>Bake at 220&deg;C for 18 minutes.</li></ol>"'],
    ['a list of texts', '["Knead for 8 minutes.", "Bake at 220 C for 18 minutes."]'],
    ['steps', '[{"@type":"HowToStep","text":"Knead for 8 minutes."},{"@type":"HowToStep","text":"Bake at 220 °C for 18 minutes."}]'],
    ['steps in steps', '[{"@type":"HowToStep","itemListElement":[{"@type":"HowToDirection","text":"Knead for 8 minutes."},{"@type":"HowToDirection","text":"Bake at 220 C for 18 minutes."}]}]'],
    ['sections', '[{"@type":"HowToSection","name":"All","itemListElement":[{"@type":"HowToStep","text":"Knead for 8 minutes."},{"@type":"HowToStep","text":"Bake at 220 C for 18 minutes."}]}]'],
    ['a list with an order', '{"@type":"ItemList","itemListElement":[{"@type":"ListItem","position":1,"item":{"text":"Knead for 8 minutes."}},"Bake at 220 C for 18 minutes."]}'],
  ])('a method is read from %s', (_how, instructions) => {
    const { text } = converted(recipe({ recipeInstructions: JSON.parse(instructions) as unknown }));
    expect(text).toContain('knead     8 min, "Knead for 8 minutes."');
    expect(text).toMatch(/bake {6}18 min at 220 C, "Bake at 220 ?°?C for 18 minutes\."/);
  });

  it.each([
    ['12 buns', '  makes     12 buns\n'],
    [['12', '12 buns'], '  makes     12 buns\n'],
    [{ '@type': 'QuantitativeValue', value: 12, unitText: 'buns' }, '  makes     12 buns\n'],
    [12, '  note      "Makes 12"\n'],
    ['Makes about 12 small buns', '  makes     12 small buns\n'],
  ])('a yield of %j', (recipeYield, expected) => {
    expect(converted(recipe({ recipeYield })).text).toContain(expected);
  });

  it('times, nutrition and what else there is stand in comments', () => {
    const { text } = converted(recipe({ totalTime: 'PT2H15M', nutrition: { '@type': 'NutritionInformation', calories: '250 kcal' }, image: 'x.jpg', suitableForDiet: 'https://schema.org/VegetarianDiet' }));
    expect(text).toContain('# In all: 2 h 15 min (PT2H15M)');
    expect(text).toContain('# Nutrition: calories 250 kcal');
    expect(text).toContain('# Not taken over: image');
    expect(text).toContain('# Diet: https://schema.org/VegetarianDiet');
  });

  it('lines that say which part they are for are put into it', () => {
    const { text } = converted(recipe({ recipeIngredient: ['50 g rye flour, for the levain', '50 g water, for the levain', '450 g bread flour, for the final dough', '10 g rice flour, for the top'] }));
    expect(text).toContain('levain\n  50 g      rye flour\n  50 g      water\n\ndough  # final dough\n  450 g     bread flour\n  10 g      rice flour for the top\n');
  });

  it('a name that is given goes before that of the recipe, which is kept', () => {
    expect(converted(recipe({}), 'Market bun').text).toContain('formula "Market bun"\n  # Stall bun\n');
    expect(converted(`[${recipe({})},${recipe({ recipeIngredient: [] })}]`, 'One').message).toBe('There are 2 recipes in it, and one name is for one of them. Leave the name out.');
  });
});

describe('what cannot be read is said', () => {
  it.each([
    ['', 'There are no words in it, so there is nothing to convert.'],
    ['  \n---\n***', 'There are no words in it, so there is nothing to convert.'],
    ['{"@type":"WebSite"}', 'It is JSON, but there is no Recipe of schema.org in it.'],
    ['{"@type":"Recipe",\n "name": }', 'The recipe data is not valid JSON: value expected at line 2, column 10. Mend it, or save the page again.'],
    ['<script type="application/ld+json">\n{"a": 1,}</script>',
      'The recipe data is not valid JSON: property name expected at line 2, column 9. No other recipe was found in the page; copy its words and convert them as plain text.'],
    ['<html><nav>Home</nav></html>', 'The page has no words and no recipe data in it.'],
    ['word\n'.repeat(2001), 'There are 2001 lines in it, and at most 2000 are read at once, since no recipe is that long. Convert a part of it.'],
    ['x'.repeat(5_000_001), 'This is more than 5 million characters, which no recipe has. Convert a part of it.'],
  ])('%#', (text, message) => {
    expect(converted(text).message).toBe(message);
  });

  it('a script that is broken does not hide the others', () => {
    const { text, notices } = converted(`<script type="application/ld+json">{]</script><script type="application/ld+json">${recipe({})}</script>`);
    expect(text).toContain('formula "Stall bun"');
    expect(notices).toEqual(['The recipe data is not valid JSON: property name expected at line 1, column 37.']);
  });

  it('data nested without end does not bring it down', () => {
    for (const text of ['['.repeat(100_000), '{"a":'.repeat(100_000), `{"@type":"Recipe","recipeInstructions":${'['.repeat(3000)}${']'.repeat(3000)}}`]) {
      expect(typeof converted(text).text).toBe('string');
    }
  });

  it('a name in another language is kept, and that is said', () => {
    const { text, notices } = converted('Pan\n\n500 g farinha de trigo\n300 ml leche entera\n10 g sól morska\n3 g Trockenhefe');
    expect(text).toContain('  500 g     farinha de trigo\n');
    expect(notices[0]).toMatch(/^Of 4 ingredients of "Pan" 0 are known by name\. If it is in another language: nothing is translated\./);
  });
});

describe('pages', () => {
  it('blocks are lines, headings are marked, cells are apart; menus and scripts are not words', () => {
    const { text, title } = readPage('<nav>Menu</nav><h1>A <b>loaf</b></h1><p>One<br>two</p><table><tr><td>Flour</td><td>500 g</td></tr></table><script>let x</script><style>p{}</style>');
    expect(text).toBe('# A loaf\nOne\ntwo\nFlour\t500 g');
    expect(title).toBe('A loaf');
  });

  it('a script is found by its type, whatever stands around its data', () => {
    const { scripts } = readPage('<p>\n</p><script type="application/ld+json; charset=utf-8">//<![CDATA[\n{"a":1}\n//]]></script><script>{"b":2}</script>');
    expect(scripts.map(({ text, line, column }) => ({ text: text.trim(), line, column }))).toEqual([{ text: '{"a":1}', line: 2, column: 55 }]);
  });

  it('strings lose their marks and entities, and keep signs that are none', () => {
    expect(plainLines('1 &frac12; cups <b>milk</b> &amp; honey')).toEqual(['1 ½ cups milk & honey']);
    expect(plainLines('bake < 20 minutes')).toEqual(['bake < 20 minutes']);
    expect(plainLines('<ul><li>one</li><li>two</li></ul>')).toEqual(['one', 'two']);
  });
});
