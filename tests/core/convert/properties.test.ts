/** Whatever the text: nothing throws, nothing is lost, and the draft reads. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format, parse } from '../../../grammar';
import { convert } from '../../../server/core/convert/convert';
import { wordsLost } from '../../../server/core/convert/kept-words';
import { placeLines } from '../../../server/core/convert/place';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';
import { analyseText } from '../bake';

const options = { catalogue: builtInCatalogue };

function draftOf(text: string): string {
  const converted = convert(text, options);
  return converted.kind === 'drafted' ? converted.text : '';
}

const number = fc.constantFrom('1', '2', '12', '500', '0.5', '1,5', '1/2', '1 1/2', '½', '2½', '1,000', '2-3', '2 – 3', '2 to 3', 'about 100', '~20', '00', '1/0', '9999999999999');
const unit = fc.constantFrom('g', ' g', 'kg', ' oz', ' lb', ' ml', ' dl', ' cups', ' cup', ' tbsp', ' T', ' tsp', ' t', ' sticks', ' pinches', ' packet', ' cloves', ' %', '', ' handfuls', '-ounce');
const name = fc.constantFrom('bread flour', 'water', 'salt', 'butter', 'eggs', 'instant yeast', 'levain', 'gofio flour', 'fig & walnut mix', 'żurawina', 'mleko', 'T55 flour', '00 flour', 'yeast',
  'milk or water', 'sugar/honey', 'olive oil', 'baker\'s sugar', 'Crème fraîche', 'butter for the top', 'water at 30 C', 'flour as needed');
const aside = fc.constantFrom('', ', sifted', ', at room temperature', ' (about 3 1/2 cups)', ' (100 %)', ', plus more for dusting', ', divided', ' to taste', ' # best one', ' "the good one"', ', accept it', ' (', ' )', ' | 5 | 6', '\t70 %', ' — optional', ', for dusting', ' at 30 C / 85 F');
const ingredient = fc.tuple(fc.constantFrom('', '- ', '• ', '1. ', '* '), number, unit, fc.constantFrom(' ', ' of '), name, aside).map((parts) => parts.join(''));
const behind = fc.tuple(name, fc.constantFrom(', ', ': ', ' - ', ' ', '\t'), number, unit).map((parts) => parts.join(''));
const heading = fc.constantFrom('Levain', 'For the levain:', 'Dough:', 'Topping', '# A loaf', '**Soaker**', 'Ingredients', 'Method:', 'Notes', 'Night dough', 'Scald:', 'accept salt-high: no', 'My "best" loaf', 'Makes 2 loaves', 'Serves 4-6', 'Source: a book', 'Prep time: 20 min');
const sentence = fc.tuple(
  fc.constantFrom('Mix', 'Knead by hand', 'Let rise', 'Bake', 'Preheat the oven', 'Fold', 'Shape', 'Cool', 'Refrigerate', 'Do not knead', 'Mix the levain and leave', 'Wait', 'Uncover and bake', 'Stretch and fold', 'If it is cold, rest'),
  fc.constantFrom('', ' for 20 minutes', ' overnight', ' 1 h 30 min', ' for 2-3 hours', ' every 30 minutes, 4 times', ' for half an hour', ' at 450F for 20 minutes covered and 25 uncovered', ' at 30, 60 and 90 minutes'),
  fc.constantFrom('', ' at 230 C', ' at 24°C', ' at 375°F (190°C)', ' in the fridge', ' until it reads 96 C inside', ', "gently"', ' # now'),
  fc.constantFrom('.', '', '!', ';', '. Then shape.'),
).map((parts) => parts.join(''));
const card = fc.array(fc.oneof(ingredient, ingredient, behind, heading, sentence, fc.constant(''), fc.string({ unit: 'grapheme', maxLength: 40 })), { minLength: 1, maxLength: 25 })
  .map((lines) => lines.join('\n'));

describe('any card', () => {
  it('gives a draft that reads without a problem, is laid out, and can be analysed', () => {
    fc.assert(fc.property(card, (text) => {
      const draft = draftOf(text);
      expect(parse(draft).blocks.flatMap(({ block }) => block.problems.map(({ message }) => message))).toEqual([]);
      expect(format(draft)).toBe(draft);
      analyseText(draft);
    }), { numRuns: 300 });
  });

  it('loses no word', () => {
    fc.assert(fc.property(card, (text) => {
      const converted = convert(text, options);
      if (converted.kind === 'nothing') return;
      // Headings such as `Method` are said by the blocks of the draft, words for a part by its kind.
      const said = 'ingredients method notes levain dough topping soaker scald source steps formula night prep accept';
      // The numbers of a list are those of the draft's own order.
      const numbered = text.replace(/^\d{1,2}[.)] /gm, '');
      expect(wordsLost(numbered.normalize('NFC'), `${converted.text.normalize('NFC')} ${said}`)).toEqual([]);
    }), { numRuns: 300 });
  });

  it('gives every line that has words an outcome', () => {
    fc.assert(fc.property(fc.array(fc.oneof(ingredient, sentence), { minLength: 1, maxLength: 12 }), (lines) => {
      // A blank line between any two, so that none is taken for the end of the one above.
      const placed = placeLines(lines.flatMap((line) => [line, '']));
      expect(placed).toHaveLength(lines.length);
      const converted = convert(lines.join('\n\n'), options);
      expect(converted.kind === 'drafted' && converted.drafts.flatMap(({ outcomes }) => outcomes)).toHaveLength(lines.length);
    }), { numRuns: 200 });
  });
});

describe('anything at all', () => {
  it('never throws, as text, as a page or as data', () => {
    const wrapped = fc.tuple(fc.constantFrom(['', ''], ['<p>', '</p>'], ['<script type="application/ld+json">', '</script>'], ['{"@type":"Recipe","recipeIngredient":["', '"]}'], ['[', ']']), fc.string({ unit: 'binary', maxLength: 300 }))
      .map(([[before, after], text]) => before + text + after);
    fc.assert(fc.property(wrapped, (text) => {
      const draft = draftOf(text);
      expect(parse(draft).blocks.flatMap(({ block }) => block.problems)).toEqual([]);
    }), { numRuns: 400 });
  });

  it('never throws at JSON-LD of any shape', () => {
    const value = fc.letrec((tie) => ({
      any: fc.oneof({ maxDepth: 4 }, fc.string(), fc.double(), fc.boolean(), fc.constant(null), fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(fc.constantFrom('name', 'text', '@type', 'itemListElement', 'value', 'unitText', 'url', 'calories'), tie('any'))),
    })).any;
    const recipe = fc.record({ '@type': fc.constantFrom('Recipe', ['Recipe', 'Thing']), name: value, author: value, recipeYield: value, recipeIngredient: value, recipeInstructions: value, nutrition: value, prepTime: value, url: value, description: value }, { requiredKeys: ['@type'] });
    fc.assert(fc.property(recipe, (data) => {
      const draft = draftOf(JSON.stringify(data));
      expect(parse(draft).blocks.flatMap(({ block }) => block.problems)).toEqual([]);
    }), { numRuns: 300 });
  });
});
