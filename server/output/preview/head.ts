/** The top of the preview: the name, what it makes, and the totals, said in words and as figures. */
import type { ResolvedFormula, Totals } from '../../core/formula/model';
import { titleOf } from '../entry';
import { celsius, counted, percent, weight } from '../numbers';
import { compositionsUnknown, whyUnknown } from '../facts/unknown';
import { tinWords } from '../tin';
import { html, type Markup, said, toLine } from './html';
import type { PreviewInput } from './preview';

export function head({ section, formula, totals, lineOf }: PreviewInput): Markup {
  // A dash further down has its reason here.
  const why = formula.parts.length === 0 ? [] : [whyUnknown({ section, formula }) ?? [], totals.hydration_pct === null ? compositionsUnknown({ formula, totals }) : []].flat();
  const styles = formula.styles.map(({ text }) => text).join(', ');
  const facts = [
    ...yieldWords(formula, totals),
    ...(styles === '' ? [] : [styles]),
    ...(formula.roomCelsius === null ? [] : [`room at ${celsius(formula.roomCelsius)}`]),
  ];
  return html`<header>
<h1>${toLine(lineOf(formula.namePlace), titleOf(formula))}</h1>
${facts.length > 0 && html`<p class="yield">${facts.join(' · ')}</p>`}
${why.map((sentence) => html`<p class="in-words">${said(sentence)}</p>`)}
${formula.kind === 'formula' && figures(formula, totals)}</header>`;
}

/** `2 loaves of 970 g`, `854 g each after the oven`. */
function yieldWords({ kind, serves, yield: made }: ResolvedFormula, totals: Totals): string[] {
  const words: string[] = [];
  if (made.pieces !== null) {
    const pieces = made.noun === 'piece' ? counted(made.pieces, 'piece') : `${percentless(made.pieces)} ${made.noun}`;
    const each = tinWords(made) ?? (made.pieceGrams === null ? undefined : weight(made.pieceGrams));
    words.push(each === undefined ? pieces : `${pieces} of ${each}`);
    if (made.bakedPieceGrams !== null && kind === 'formula') words.push(`about ${weight(made.bakedPieceGrams)} each out of the oven`);
  } else if (totals.dough_g !== null && kind === 'formula') {
    words.push(`${weight(totals.dough_g)} of dough`);
  }
  if (serves !== null) words.push(`serves ${percentless(serves)}`);
  return words;
}

function percentless(count: number): string {
  return String(Math.round(count * 100) / 100);
}

interface Figure {
  readonly name: string;
  readonly value: string;
  /** What the name means here. */
  readonly meaning: string;
}

function figures(formula: ResolvedFormula, totals: Totals): Markup {
  const list = figuresOf(totals);
  const desired = formula.dough === undefined ? null : (formula.parts[formula.dough]?.desiredCelsius ?? null);
  if (desired !== null) list.push({ name: 'Dough temperature', value: celsius(desired), meaning: 'wanted at the end of mixing' });
  const sentence = perHundred(totals);
  return html`${sentence && html`<p class="in-words">${sentence}</p>`}
<dl class="figures">${list.map(({ name, value, meaning }) => html`<div><dt>${name}</dt><dd>${value}<small>${meaning}</small></dd></div>`)}</dl>`;
}

/** Baker's percentages as a sentence for somebody who never met them. Empty when the flour or the water is not known. */
function perHundred(totals: Totals): string {
  const has = (value: number | null): value is number => value !== null && value >= 0.05;
  if (!has(totals.hydration_pct)) return '';
  const things = [`${percent(totals.hydration_pct)}\u00a0g of water`];
  if (has(totals.salt_pct)) things.push(`${percent(totals.salt_pct)}\u00a0g of salt`);
  if (has(totals.inclusions_pct)) things.push(`${percent(totals.inclusions_pct)}\u00a0g of inclusions`);
  const ahead = has(totals.prefermented_flour_pct) ? `, and ${percent(totals.prefermented_flour_pct)}\u00a0% of the flour is fermented ahead` : '';
  const last = things.pop() ?? '';
  return `For every 100\u00a0g of flour the dough has ${things.length > 0 ? `${things.join(', ')} and ` : ''}${last}${ahead}.`;
}

function figuresOf(totals: Totals): Figure[] {
  const list: Figure[] = [];
  const grams = (name: string, value: number | null, meaning: string): void => {
    list.push({ name, value: weight(value), meaning });
  };
  /** Left out where there is none of it; a dash where it cannot be known. */
  const share = (name: string, value: number | null, meaning: string, always = false): void => {
    if (always || (value !== null && value >= 0.05)) list.push({ name, value: value === null ? percent(null) : `${percent(value)} %`, meaning });
  };
  const differs = (a: number | null, b: number | null): boolean => a !== null && b !== null && Math.abs(a - b) >= 0.05;

  grams('Flour', totals.flour_g, 'all of it; this is the 100\u00a0%');
  grams('Dough', totals.dough_g, 'before dividing');
  const soaked = differs(totals.water_pct, totals.hydration_pct);
  const isDry = totals.hydration_pct !== null && totals.hydration_pct < 0.05 && differs(totals.effective_hydration_pct, 0);
  share('Hydration', totals.hydration_pct, isDry ? 'no line is plain water; see effective hydration' : soaked ? 'the soakers’ water left out' : 'water over flour', true);
  if (soaked) share('All water', totals.water_pct, 'the soakers’ counted in');
  if (differs(totals.effective_hydration_pct, totals.water_pct)) {
    share('Effective hydration', totals.effective_hydration_pct, 'with what eggs, milk and butter bring, and what dry things drink');
  }
  share('Salt', totals.salt_pct, 'over flour', true);
  share('Fermented ahead', totals.prefermented_flour_pct, 'of the flour, in preferments and starter');
  share('Levain', totals.inoculation_pct, 'levain or starter over flour');
  share('Inclusions', totals.inclusions_pct, totals.inclusions_of_dough_pct === null ? 'over flour' : `over flour; ${percent(totals.inclusions_of_dough_pct)} % of the dough`);
  share('Sugar', totals.sugar_pct, 'over flour');
  share('Fat', totals.fat_pct, 'over flour');
  share('Egg', totals.egg_pct, 'over flour');
  share('Milk solids', totals.milk_solids_pct, 'over flour');
  share('Protein', totals.flour_protein_pct, 'of the flour blend');
  return list;
}
