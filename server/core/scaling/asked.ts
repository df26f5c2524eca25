/** A size in a baker's words, from a command line or an input box: `900 g`, `1.8 l`, `180 g starter`, `3 eggs`. */
import type { VolumeUnit } from '../../../grammar';
import { GRAMS_PER } from '../units/mass';
import { volumeToMl, type MeasureSystem } from '../units/volume';
import type { ScaleRequest } from './scale';
import type { ScaleStep } from './scene';

export const SIZES = ['pieces', 'piece', 'dough', 'flour', 'factor', 'have', 'tin'] as const;
export type Size = (typeof SIZES)[number];

export function isSize(text: string): text is Size {
  return SIZES.some((size) => size === text);
}

/** What a value should have been: `a number above 0, such as 4 or 2.5`. */
export interface NotRead {
  readonly kind: 'not-read';
  readonly expected: string;
}

export type Asked = { readonly kind: 'read'; readonly request: ScaleRequest } | NotRead;

/** Larger numbers are slips of the keys. */
const LARGEST = 1e9;

const A_NUMBER = 'a number above 0, such as 4 or 2.5';
const A_WEIGHT = 'a weight above 0, such as "900 g" or "5 kg"';
const A_VOLUME = 'a volume above 0, such as "1.8 l" or "750 ml"';
const AN_AMOUNT_OF = 'a weight or a count and a name, such as "180 g starter" or "3 eggs"';

/** The size that a value asks for. Weights without a unit are grams; volumes need one. */
export function askedFor(by: Size, value: string, measures: MeasureSystem = 'us'): Asked {
  switch (by) {
    case 'pieces': {
      const pieces = numberIn(value);
      return pieces === undefined ? notRead(A_NUMBER) : read({ by, pieces });
    }
    case 'factor': {
      const factor = numberIn(value);
      return factor === undefined ? notRead(A_NUMBER) : read({ by, factor });
    }
    case 'piece':
    case 'dough':
    case 'flour': {
      const grams = gramsIn(value);
      return grams === undefined ? notRead(A_WEIGHT) : read({ by, grams });
    }
    case 'tin': {
      const millilitres = millilitresIn(value, measures);
      return millilitres === undefined ? notRead(A_VOLUME) : read({ by, millilitres });
    }
    case 'have':
      return had(value);
  }
}

function had(value: string): Asked {
  const [, number = '', unit = '', name = ''] = /^([\d.]+)\s*(g|kg|mg|oz|lb)?(?:\s+of)?\s+(\S.*)$/i.exec(value.trim()) ?? [];
  const quantity = unit === '' ? numberIn(number) : gramsIn(`${number} ${unit}`);
  const named = name.trim().replace(/^"(.*)"$/, '$1');
  // `180 g` of what?
  if (quantity === undefined || named === '' || Object.hasOwn(GRAMS_PER, named.toLowerCase())) return notRead(AN_AMOUNT_OF);
  return read(unit === '' ? { by: 'have-count', count: quantity, name: named } : { by: 'have', grams: quantity, name: named });
}

/** What scales read to: `1g`, `0.1 g`, `0.05 oz`. */
export function stepIn(step: string | undefined, smallStep: string | undefined): { readonly kind: 'read'; readonly step: ScaleStep } | NotRead & { readonly of: 'step' | 'small-step' } {
  const [grams, smallGrams] = [step, smallStep].map((text) => (text === undefined ? undefined : gramsIn(text)));
  const expected = 'a weight above 0, such as "1 g" or "0.1 g"';
  if (step !== undefined && grams === undefined) return { kind: 'not-read', of: 'step', expected };
  if (smallStep !== undefined && smallGrams === undefined) return { kind: 'not-read', of: 'small-step', expected };
  return { kind: 'read', step: { ...(grams !== undefined && { grams }), ...(smallGrams !== undefined && { smallGrams }) } };
}

function read(request: ScaleRequest): Asked {
  return { kind: 'read', request };
}

function notRead(expected: string): NotRead {
  return { kind: 'not-read', expected };
}

function numberIn(text: string): number | undefined {
  const value = /^(?:\d+(?:\.\d+)?|\.\d+)$/.test(text.trim()) ? Number(text) : Number.NaN;
  return value > 0 && value <= LARGEST ? value : undefined;
}

function measured(text: string): { readonly value: number; readonly unit: string } | undefined {
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*([a-z][a-z ]*)?$/i.exec(text.trim());
  return match === null ? undefined : { value: Number(match[1]), unit: (match[2] ?? '').trim().toLowerCase().replace(/\s+/g, ' ') };
}

function gramsIn(text: string): number | undefined {
  const found = measured(text);
  const perUnit = Object.entries(GRAMS_PER).find(([name]) => name === (found?.unit || 'g'))?.[1];
  const grams = found === undefined || perUnit === undefined ? 0 : found.value * perUnit;
  return grams > 0 && grams <= LARGEST ? grams : undefined;
}

const VOLUME_UNITS: Readonly<Record<string, VolumeUnit>> = {
  ml: 'ml', l: 'l', litre: 'l', litres: 'l', liter: 'l', liters: 'l', cup: 'cup', cups: 'cup', tsp: 'tsp', tbsp: 'tbsp', 'fl oz': 'fl oz',
};

function millilitresIn(text: string, measures: MeasureSystem): number | undefined {
  const found = measured(text);
  const unit = found !== undefined && Object.hasOwn(VOLUME_UNITS, found.unit) ? VOLUME_UNITS[found.unit] : undefined;
  const millilitres = found === undefined || unit === undefined ? 0 : found.value * volumeToMl(unit, measures);
  return millilitres > 0 && millilitres <= LARGEST ? millilitres : undefined;
}
