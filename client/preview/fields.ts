/** The fields of the preview's page by which a formula is looked at in another size. */
import type { ViewSize } from '../../server/requests';

/** What a changed field asks for; undefined for a field of something else, or one that says nothing. */
export function sizeAskedBy(page: Element, target: EventTarget | null): ViewSize | undefined {
  const field = page.querySelector<HTMLSelectElement>('#size-step')?.selectedOptions[0];
  const step = field?.value ?? '';
  const rounding = step === '' ? {} : { step, smallStep: field?.getAttribute('data-small') ?? step };
  if (target instanceof HTMLInputElement) {
    const by = target.getAttribute('data-size');
    const value = valueOf(target);
    return by === null || value === '' ? undefined : { by, value: by === 'have' ? `${value} "${heldName(page)}"` : value, ...rounding };
  }
  if (!(target instanceof HTMLSelectElement) || !target.hasAttribute('data-size-step')) return undefined;
  // Another rounding is of the size on show, which the server has said in the same words as it was asked for.
  const shown = page.querySelector('#size-shown [data-by]');
  const [by, value] = [shown?.getAttribute('data-by'), shown?.getAttribute('data-value')];
  return by && value ? { by, value, ...rounding } : undefined;
}

/** A number alone has the unit that stands beside the field. */
function valueOf(input: HTMLInputElement): string {
  const value = input.value.trim();
  const unit = input.getAttribute('data-unit') ?? '';
  return unit !== '' && /^[\d.]+$/.test(value) ? `${value} ${unit}` : value;
}

function heldName(page: Element): string {
  return page.querySelector<HTMLSelectElement>('#size-have-of')?.value ?? '';
}

/** Another ingredient to have some of: the field says how much of it the formula takes as shown. */
export function showHeld(page: Element): void {
  const option = page.querySelector<HTMLSelectElement>('#size-have-of')?.selectedOptions[0];
  const input = page.querySelector<HTMLInputElement>('#size-have');
  if (!option || !input) return;
  fillHeld(page, option);
  input.value = input.getAttribute('value') ?? '';
}

function fillHeld(page: Element, option: Element): void {
  const input = page.querySelector('#size-have');
  const unit = option.getAttribute('data-unit') ?? '';
  input?.setAttribute('value', option.getAttribute('data-amount') ?? '');
  input?.setAttribute('data-unit', unit);
  const words = page.querySelector('#size-have-unit');
  if (words) words.textContent = unit;
}

/**
 * What the baker has opened and chosen on the page stays so in what comes next: what is unfolded, the ingredient, and the
 * rounding as long as no size is on show that has one.
 */
export function keepChoices(page: Element, next: Element): void {
  for (const folded of page.querySelectorAll('details')) next.querySelector(`#${folded.id}`)?.toggleAttribute('open', folded.open);
  if (!next.querySelector('#size [aria-invalid]#size-have')) {
    const kept = keepOption(page, next, '#size-have-of');
    if (kept) fillHeld(next, kept);
  }
  if (!next.querySelector('#size-shown [data-by]')) keepOption(page, next, '#size-step');
}

function keepOption(page: Element, next: Element, select: string): Element | undefined {
  const chosen = page.querySelector<HTMLSelectElement>(select)?.value;
  const options = [...next.querySelectorAll<HTMLOptionElement>(`${select} option`)];
  const kept = options.find(({ value }) => value === chosen);
  if (!kept) return undefined;
  for (const option of options) option.toggleAttribute('selected', option === kept);
  return kept;
}
