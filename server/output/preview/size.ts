/**
 * At which size the formula is shown, and a field for each way to say another. Nothing here touches the file but the button
 * that says so. The page's script listens to whatever has `data-size`, `data-size-step` and `data-do`.
 */
import type { ResolvedFormula } from '../../core/formula/model';
import { isSize } from '../../core/scaling/asked';
import { volumeWords } from '../../core/scaling/scale';
import { decimals, weight } from '../numbers';
import { html, type Markup, said, toLine } from './html';
import type { PreviewInput } from './preview';

/** A size in a baker's words, with what the scale reads to. */
export interface Size {
  readonly by: string;
  readonly value: string;
  readonly step?: string | undefined;
  readonly smallStep?: string | undefined;
}

export interface SizeInput {
  /** The ways to say a size: `Number of buns`, now `12 buns`. */
  readonly fields: readonly { readonly by: string; readonly label: string; readonly now: string }[];
  /** The one it is shown at; undefined where that is the file's own. */
  readonly shown: Size | undefined;
  /** One that it cannot have, though it had before, and why. */
  readonly lost: { readonly size: Size; readonly message: string } | undefined;
  /** One that was just asked for and cannot be, and why. */
  readonly refused: { readonly size: Size; readonly message: string } | undefined;
  /** What rounding and whole eggs did. */
  readonly notes: readonly { readonly line: number; readonly message: string }[];
  /** Why the size shown cannot be written into the file, in a sentence; undefined where it can. */
  readonly whyNotWritten?: string | undefined;
}

export function sizeSection(input: PreviewInput): Markup | undefined {
  const { size } = input;
  if (size === undefined || (size.fields.length === 0 && size.lost === undefined)) return undefined;
  const isOpen = size.shown !== undefined || size.refused !== undefined;
  return html`<section id="size" class="size" aria-labelledby="size-name"><div id="size-shown" role="status">${shownWords(input, size)}</div>
<details id="size-fields"${isOpen && html` open`}><summary id="size-name">Another size</summary>
<div class="fields">${size.fields.map((field) => fieldOf(input, size, field))}${roundingField(size)}</div>
<p class="quiet">The file stays as it is.</p></details></section>`;
}

/** `Shown at 24 buns, the file says 12`, and the ways on from there. */
function shownWords(input: PreviewInput, { shown, lost, notes, whyNotWritten }: SizeInput): Markup | undefined {
  if (lost !== undefined) {
    return html`<p class="note">Not shown at ${askedWords(lost.size)} any more. ${said(lost.message)} ${action('size-back', 'Stay at the file’s size')}</p>`;
  }
  if (shown === undefined) return undefined;
  const { here, written } = sizesInWords(input);
  return html`<p class="note" data-by="${shown.by}" data-value="${shown.value}"><b>Shown at ${here}, the file says ${written}.</b> ${action('size-back', 'Back to the file’s size')} ${whyNotWritten === undefined && action('size-write', 'Write this size into the file')}</p>
${whyNotWritten !== undefined && html`<p class="quiet">This size can be looked at, not written. ${said(whyNotWritten)} Weights that steps add are those of the file.</p>`}${notes.length > 0 && html`<ul class="facts">${notes.map(({ line, message }) => html`<li>${toLine(line, said(message))}</li>`)}</ul>`}`;
}

export function action(name: string, words: string): Markup {
  return html`<button type="button" class="action" data-do="${name}">${words}</button>`;
}

/** What differs, as shown and as written. */
function sizesInWords({ formula, asWritten = formula, totals, factor = 1 }: PreviewInput): { readonly here: string; readonly written: string } {
  const [now, then] = [formula.yield, asWritten.yield];
  const noun = now.noun;
  if (now.pieces !== null && then.pieces !== null && now.pieces !== then.pieces) {
    return { here: `${decimals(now.pieces, 2)} ${noun}`, written: decimals(then.pieces, 2) };
  }
  if (now.tinMillilitres !== null && then.tinMillilitres !== null) return { here: `${noun} of ${volumeWords(now.tinMillilitres)}`, written: volumeWords(then.tinMillilitres) };
  if (now.pieces !== null && now.pieceGrams !== null && then.pieceGrams !== null) return { here: `${noun} of ${weight(now.pieceGrams)}`, written: weight(then.pieceGrams) };
  if (formula.serves !== null && asWritten.serves !== null) return { here: `a size that serves ${decimals(formula.serves, 2)}`, written: decimals(asWritten.serves, 2) };
  if (totals.dough_g !== null) return { here: `${weight(totals.dough_g)} of dough`, written: weight(totals.dough_g / factor) };
  return { here: `${decimals(factor, 3)} times its amounts`, written: 'once' };
}

/** A size as it was asked for, where the formula no longer says what it comes to. */
function askedWords({ by, value }: Size): string {
  switch (isSize(by) ? by : undefined) {
    case 'pieces':
      return `${value} pieces`;
    case 'piece':
      return `${value} a piece`;
    case 'dough':
      return `${value} of dough`;
    case 'flour':
      return `${value} of flour`;
    case 'factor':
      return `${value} times its amounts`;
    case 'tin':
      return `${value} a tin`;
    case 'have':
    case undefined:
      return value.replaceAll('"', '');
  }
}

function fieldOf(input: PreviewInput, size: SizeInput, { by, label, now }: SizeInput['fields'][number]): Markup {
  if (by === 'have') return haveField(input, size);
  const [number = '', unit = ''] = by === 'factor' ? [decimals(input.factor ?? 1, 3), 'times'] : (/^([\d.]+) (.*)$/.exec(now)?.slice(1) ?? ['', by === 'tin' ? 'l' : '']);
  const why = size.refused?.size.by === by ? size.refused : undefined;
  return html`<div class="field"><label for="size-${by}">${label}</label><span class="entry">${entry({ by, value: why?.size.value ?? number, unit: by === 'pieces' || by === 'factor' ? '' : unit, why })} <span class="unit">${unit}</span></span>${whyNot(by, why)}</div>`;
}

interface Entry {
  readonly by: string;
  readonly value: string;
  /** Of a number that is typed without one. */
  readonly unit: string;
  readonly why: SizeInput['refused'];
  readonly labelledBy?: string;
}

function entry({ by, value, unit, why, labelledBy }: Entry): Markup {
  return html`<input id="size-${by}" type="text" size="8" inputmode="decimal" autocomplete="off" spellcheck="false" value="${value}" data-size="${by}" data-unit="${unit}"${labelledBy !== undefined && html` aria-labelledby="${labelledBy}"`}${why && html` aria-invalid="true" aria-describedby="size-${by}-why"`}>`;
}

function whyNot(by: string, why: SizeInput['refused']): Markup | undefined {
  return why && html`<p class="why" id="size-${by}-why" role="alert">${said(why.message)}</p>`;
}

interface Held {
  readonly name: string;
  readonly amount: string;
  /** Empty for what is counted. */
  readonly unit: string;
}

/** As much as one ingredient allows: which, and how much of it there is. What is shown takes the amount in the field. */
function haveField({ formula }: PreviewInput, { refused, shown }: SizeInput): Markup {
  const why = refused?.size.by === 'have' ? refused : undefined;
  const [, typed = '', asked = ''] = /^(.*?)\s*"(.*)"$/.exec((why?.size ?? (shown?.by === 'have' ? shown : undefined))?.value ?? '') ?? [];
  const all = heldIn(formula);
  const chosen = all.find(({ name }) => name === asked) ?? all.find(({ name }) => name === usualIn(formula)) ?? all[0];
  const options = all.map((one) => html`<option value="${one.name}" data-amount="${one.amount}" data-unit="${one.unit}"${one === chosen && html` selected`}>${one.name}</option>`);
  return html`<div class="field"><span class="label"><label for="size-have" id="size-have-label">What I have of</label> <select id="size-have-of" aria-label="Which ingredient">${options}</select></span>
<span class="entry">${entry({ by: 'have', value: why === undefined ? chosen?.amount ?? '' : typed, unit: chosen?.unit ?? '', why, labelledBy: 'size-have-label size-have-of' })} <span class="unit" id="size-have-unit">${chosen?.unit ?? ''}</span></span>${whyNot('have', why)}</div>`;
}

/** What somebody may have a certain amount of: each ingredient over all parts. */
function heldIn({ parts }: ResolvedFormula): readonly Held[] {
  const found = new Map<string, { grams: number; count: number | undefined }>();
  for (const { part, name, grams, source, ingredient } of parts.flatMap(({ lines }) => lines)) {
    if (part !== undefined || grams === null || grams <= 0) continue;
    const eachGrams = source?.kind === 'ingredient' && source.amount.kind === 'count' ? ingredient?.eachGrams ?? null : null;
    const count = eachGrams === null ? undefined : grams / eachGrams;
    const before = found.get(name);
    found.set(name, {
      grams: grams + (before?.grams ?? 0),
      count: before === undefined ? count : count === undefined || before.count === undefined ? undefined : count + before.count,
    });
  }
  return [...found].map(([name, { grams, count }]) => (
    count === undefined ? { name, amount: grams >= 10 ? decimals(grams, 0) : decimals(grams, 2), unit: 'g' } : { name, amount: decimals(count, 2), unit: '' }
  ));
}

/** A ripe culture is what there is a certain amount of, most days. */
function usualIn({ parts }: ResolvedFormula): string | undefined {
  const lines = parts.flatMap((part) => part.lines);
  return (lines.find(({ key }) => key === 'starter') ?? lines.find(({ part, ingredient }) => part === undefined && ingredient?.isWater !== true))?.name;
}

/** What scales read to; the first is the usual one. */
const ROUNDINGS = [
  { step: '1 g', smallStep: '0.1 g', words: 'to 1 g; salt, yeast, starter and spices to 0.1 g' },
  { step: '5 g', smallStep: '0.1 g', words: 'to 5 g; salt, yeast, starter and spices to 0.1 g' },
  { step: '', smallStep: '', words: 'not rounded' },
] as const;

function roundingField({ shown, refused }: SizeInput): Markup {
  const asked = shown ?? refused?.size;
  const options = ROUNDINGS.map(({ step, smallStep, words }) => (
    html`<option value="${step}" data-small="${smallStep}"${asked !== undefined && (asked.step ?? '') === step && html` selected`}>${words}</option>`
  ));
  return html`<div class="field"><label for="size-step">Weights</label><span class="entry"><select id="size-step" data-size-step>${options}</select></span></div>`;
}
