/** Recipes of schema.org in JSON-LD, as cards. Whatever is not where the vocabulary says is passed over, never an error. */
import { oneLine } from './characters';
import { isoMinutes, durationWords } from './durations';
import { partHeading } from './headings';
import { plainLines } from './html';
import { purposeIn } from './names';
import type { Card, PlacedKind, PlacedLine } from './model';

type Fields = Readonly<Record<string, unknown>>;

/** A page has no more; what is nested on and on is no recipe. */
const MOST_NODES = 200_000;

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** One thing or a list of things. */
function listOf(value: unknown): readonly unknown[] {
  if (value === undefined || value === null) return [];
  return Array.isArray(value) ? value : [value];
}

function isOfType(node: Fields, type: string): boolean {
  return listOf(node['@type']).some((one) => typeof one === 'string' && (one === type || one.endsWith(`/${type}`) || one.endsWith(`:${type}`)));
}

/** Every recipe in a value: at the top, in lists, in `@graph`, inside other things. Each once. */
export function recipesIn(value: unknown): readonly Fields[] {
  const found: Fields[] = [];
  const seen = new Set<string>();
  const waiting: unknown[] = [value];
  for (let nodes = 0; waiting.length > 0 && nodes < MOST_NODES; nodes += 1) {
    const node = waiting.pop();
    if (isFields(node) && isOfType(node, 'Recipe')) {
      const key = JSON.stringify([node.name, node.recipeIngredient, node.ingredients, node.recipeInstructions]);
      if (!seen.has(key)) found.push(node);
      seen.add(key);
    } else if (typeof node === 'object' && node !== null) {
      // The first is looked at first.
      for (const inner of Object.values(node).reverse()) waiting.push(inner);
    }
  }
  return found;
}

/** Fields that are kept as they stand, by what they are called in the draft. */
const FACTS: readonly (readonly [field: string, label: string])[] = [
  ['prepTime', 'Preparation'], ['cookTime', 'Baking'], ['totalTime', 'In all'], ['performTime', 'Work'], ['recipeCategory', 'Category'], ['recipeCuisine', 'Cuisine'],
  ['keywords', 'Keywords'], ['suitableForDiet', 'Diet'], ['cookingMethod', 'How'], ['datePublished', 'Published'], ['dateModified', 'Changed'], ['tool', 'Tools'],
  ['estimatedCost', 'Cost'], ['publisher', 'Publisher'], ['inLanguage', 'Language'], ['copyrightNotice', 'Copyright'], ['license', 'Licence'], ['nutrition', 'Nutrition'],
];
const READ = new Set(['@context', '@type', '@id', 'name', 'recipeYield', 'yield', 'author', 'creator', 'url', 'mainEntityOfPage', 'isBasedOn', 'description', 'recipeIngredient',
  'ingredients', 'supply', 'recipeInstructions', 'step', 'steps', 'headline', ...FACTS.map(([field]) => field)]);

/** One recipe as a card. */
export function cardOf(recipe: Fields): Card {
  const lines: PlacedLine[] = [];
  const add = (kind: PlacedKind, text: string): void => {
    if (text !== '') lines.push({ kind, text, line: 0 });
  };
  add('title', wordsOf(recipe.name ?? recipe.headline));
  yieldsOf(recipe).forEach((text, index) => add(index === 0 ? 'yield' : 'fact', index === 0 && /\p{L}/u.test(text) ? text : `Makes ${text}`));
  add('author', [...listOf(recipe.author), ...listOf(recipe.creator)].map(wordsOf).filter((text) => text !== '').join(', '));
  const [source, ...otherSources] = [...new Set([recipe.isBasedOn, recipe.url, recipe.mainEntityOfPage].flatMap(listOf).map(addressOf).filter((text) => text !== ''))];
  add('source', source ?? '');
  otherSources.forEach((text) => add('fact', `Source: ${text}`));
  plainLines(rawWordsOf(recipe.description)).forEach((text) => add('note', text));
  for (const [field, label] of FACTS) {
    const text = factOf(recipe[field]);
    if (text !== '') add('fact', `${label}: ${text}`);
  }
  const others = Object.keys(recipe).filter((field) => !READ.has(field)).map(oneLine);
  if (others.length > 0) add('fact', `Not taken over: ${others.join(', ')}`);
  ingredientLines(recipe).forEach(({ kind, text }) => add(kind, text));
  instructionLines(recipe).forEach(({ kind, text }) => add(kind, text));
  return { lines };
}

function rawWordsOf(value: unknown): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (Array.isArray(value)) return value.map(rawWordsOf).filter((text) => text !== '').join('\n');
  if (isFields(value)) return rawWordsOf(value.text ?? value.name ?? value['@value'] ?? value.value);
  return '';
}

function wordsOf(value: unknown): string {
  return oneLine(plainLines(rawWordsOf(value)).join(' '));
}

function addressOf(value: unknown): string {
  return isFields(value) ? wordsOf(value['@id'] ?? value.url ?? value.name) : wordsOf(value);
}

/** Of several ways to say a yield the one with the most words comes first: `2 loaves` before `2`. */
function yieldsOf(recipe: Fields): readonly string[] {
  const said = [...listOf(recipe.recipeYield), ...listOf(recipe.yield)].map((one) => {
    if (!isFields(one)) return wordsOf(one);
    return oneLine(`${wordsOf(one.value ?? one.minValue)} ${wordsOf(one.unitText ?? '')}`);
  });
  const all = [...new Set(said.filter((text) => text !== ''))];
  const best = all.find((text) => /\p{L}/u.test(text));
  return best === undefined ? all : [best, ...all.filter((text) => text !== best && !best.includes(text))];
}

/** `PT1H30M` as `1 h 30 min (PT1H30M)`; a nutrition object as a list; anything else in its words. */
function factOf(value: unknown): string {
  if (isFields(value)) {
    const named = wordsOf(value.name);
    const pairs = Object.entries(value).filter(([field]) => !field.startsWith('@') && field !== 'name');
    const listed = pairs.map(([field, one]) => `${oneLine(field)} ${wordsOf(one)}`.trim()).join('; ');
    return named === '' ? listed : named;
  }
  if (Array.isArray(value)) return value.map(factOf).filter((text) => text !== '').join(', ');
  const text = wordsOf(value);
  const minutes = isoMinutes(text);
  return minutes === undefined || minutes === 0 ? text : `${durationWords({ lowMinutes: minutes, highMinutes: minutes, isNight: false })} (${text})`;
}

type Line = Pick<PlacedLine, 'kind' | 'text'>;

function ingredientLines(recipe: Fields): readonly Line[] {
  const given = [...listOf(recipe.recipeIngredient), ...listOf(recipe.ingredients), ...listOf(recipe.supply)]
    .flatMap((one) => (isFields(one) && one.itemListElement !== undefined ? listOf(one.itemListElement) : [one]))
    .flatMap((one) => plainLines(rawWordsOf(one)));
  return underHeadings(given.map((text): Line => {
    const isHeading = text.endsWith(':') && !/\d/.test(text);
    return isHeading && partHeading(text.slice(0, -1), true) !== undefined ? { kind: 'part', text: text.slice(0, -1) } : { kind: 'ingredient', text };
  }));
}

/** `50 g rye flour, for the levain`: a list that has no headings may say with each line which part it is for. */
function underHeadings(lines: readonly Line[]): readonly Line[] {
  const split = lines.map(({ kind, text }) => {
    const at = kind === 'ingredient' ? text.lastIndexOf(', for the ') : -1;
    const part = at < 0 ? '' : text.slice(at + ', for the '.length).trim();
    return purposeIn(`for the ${part}`) === undefined && partHeading(part, true) !== undefined ? { text: text.slice(0, at), part } : undefined;
  });
  if (lines.some(({ kind }) => kind === 'part') || split.filter((line) => line !== undefined).length < 2) return lines;
  let current = '';
  return lines.flatMap((line, index): readonly Line[] => {
    const said = split[index];
    if (said === undefined) return [line];
    const isNew = said.part !== current;
    current = said.part;
    return [...(isNew ? [{ kind: 'part', text: said.part } as const] : []), { kind: 'ingredient', text: said.text }];
  });
}

function instructionLines(recipe: Fields): readonly Line[] {
  const given = [...listOf(recipe.recipeInstructions), ...listOf(recipe.step), ...listOf(recipe.steps)];
  return given.flatMap((one) => instruction(one, 0));
}

const DEEPEST = 6;

function instruction(value: unknown, depth: number): readonly Line[] {
  if (depth > DEEPEST) return [];
  if (Array.isArray(value)) return value.flatMap((one) => instruction(one, depth + 1));
  if (!isFields(value)) return paragraphs(rawWordsOf(value));
  const items = value.itemListElement ?? value.steps;
  const name = wordsOf(value.name);
  if (items !== undefined) {
    return [...(name === '' ? [] : [{ kind: 'step-heading', text: name } as const]), ...paragraphs(rawWordsOf(value.text)), ...listOf(items).flatMap((one) => instruction(one, depth + 1))];
  }
  const text = paragraphs(rawWordsOf(value.text ?? value.item ?? value.description));
  if (text.length === 0) return paragraphs(name);
  // Some pages name a step by its first words, or by its number.
  const isNew = name !== '' && /\p{L}/u.test(name.replace(/^step \d+$/i, '')) && !text.some((line) => line.text.startsWith(name.replace(/…|\.\.\.$/, '')));
  return isNew ? [{ kind: 'step-heading', text: name }, ...text] : text;
}

function paragraphs(text: string): readonly Line[] {
  return plainLines(text).map((line) => line.replace(/^(?:step ?)?\d{1,2}[.):] +/i, '')).filter((line) => /[\p{L}\p{N}]/u.test(line)).map((line): Line => ({ kind: 'step', text: line }));
}
