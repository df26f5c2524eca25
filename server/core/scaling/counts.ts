/** What is counted: eggs that must stay whole, and the words beside a count. */
import type { IngredientLine, Line, UsesLine } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { ResolvedLine } from '../formula/model';
import { middleOf } from '../units/mass';
import { agreeing } from './nouns';
import { keyOf, putText, roundedCount, type Scene } from './scene';

/** Less is not worth a word. */
const LEAST_GRAMS = 0.05;

/** What whole eggs bring too much or too little goes out of or into the first weighed or measured liquid of their part. */
export function correctLiquids(block: number, lines: readonly Line[], scene: Scene): void {
  let missingGrams = 0;
  let eggs: ResolvedLine | undefined;
  for (const { node } of lines) {
    if (node.kind !== 'ingredient' || node.amount.kind !== 'count' || node.amount.bracket || node.amount.quantity.high) continue;
    const line = scene.resolved.get(keyOf(placeOf(block, node)));
    const count = node.amount.quantity.low.value;
    const grams = line && gramsOf(line);
    if (line?.role !== 'egg' || !grams || count === 0) continue;
    const exact = count * scene.factor;
    missingGrams += (exact - roundedCount(exact, true)) * (grams / count);
    eggs ??= line;
  }
  if (eggs === undefined || Math.abs(missingGrams) < LEAST_GRAMS) return;
  const amount = `${Math.abs(missingGrams).toFixed(missingGrams % 1 === 0 || Math.abs(missingGrams) >= 10 ? 0 : 1)} g`;
  const liquid = lines.map(({ node }) => liquidOf(node, block, scene)).find((line) => line !== undefined && (gramsOf(line) ?? 0) * scene.factor + missingGrams > 0);
  if (liquid === undefined) {
    const way = missingGrams > 0 ? 'less than before' : 'more than before';
    scene.notes.push({ place: eggs.amountPlace, missingGrams, message: `${eggs.name}: whole ones weigh ${amount} ${way}, and no weighed liquid here can make up for it.` });
    return;
  }
  scene.corrections.set(keyOf(liquid.place), missingGrams);
  scene.notes.push({ place: liquid.amountPlace, message: `${liquid.name}: ${amount} ${missingGrams > 0 ? 'more' : 'less'}, for the eggs stay whole.` });
}

function liquidOf(node: Line['node'], block: number, scene: Scene): ResolvedLine | undefined {
  if (node.kind !== 'ingredient' || node.purpose) return undefined;
  const { amount } = node;
  const isMeasured = amount.kind === 'volume' && (amount.unit === 'ml' || amount.unit === 'l') && !amount.bracket && !amount.quantity.high;
  if (!isMeasured && (amount.kind !== 'mass' || amount.quantity.high)) return undefined;
  const line = scene.resolved.get(keyOf(placeOf(block, node)));
  return line?.ingredient?.isWater || line?.role === 'liquid' || line?.role === 'dairy' ? line : undefined;
}

/** As the line says it: in a total formula, what the list holds. */
function gramsOf(line: ResolvedLine): number | null {
  return line.listed?.grams ?? line.grams;
}

/** `1 egg` becomes `2 eggs`. Only eggs, single words that a piece of has a weight, and what a dish takes of a formula. */
export function nounOfCount(node: IngredientLine | UsesLine, block: number, scene: Scene, line: ResolvedLine | undefined): void {
  if (node.amount.kind !== 'count') return;
  const isUses = node.kind === 'uses';
  const noun = isUses ? node.noun : node.name;
  if (noun === undefined || noun.quoted) return;
  const isEgg = line?.role === 'egg' && /(?:egg|yolk|white)s?$/i.test(noun.text);
  if (!isUses && !isEgg && (/\s/.test(noun.text) || (line?.ingredient?.eachGrams ?? null) === null)) return;
  const { quantity } = node.amount;
  const before = (quantity.high ?? quantity.low).value;
  const after = roundedCount(before * scene.factor, isUses || line?.role === 'egg');
  const written = scene.section.blocks[block]?.text.slice(noun.start, noun.end) ?? '';
  // A name that is not written as it is read (two spaces between its words, say) is left alone.
  if (written === noun.text && middleOf(quantity) > 0) putText(noun, noun.text, agreeing(noun.text, before, after), block, scene);
}
