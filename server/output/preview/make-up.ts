/**
 * What the dough is made of, as one bar by weight: flour, water, everything else, and the inclusions set apart, since the
 * dough carries them and is not made of them. The list under the bar says the same in words.
 */
import { percent, weight } from '../numbers';
import { html, type Markup } from './html';
import type { PreviewInput } from './preview';

interface Share {
  readonly kind: 'flour' | 'water' | 'other' | 'inclusions';
  readonly label: string;
  readonly grams: number;
}

/** A gap in front of the inclusions, as a share of the bar. */
const GAP_PCT = 1.2;

export function makeUp(input: PreviewInput): Markup | undefined {
  if (input.formula.kind !== 'formula') return undefined;
  const shares = sharesOf(input);
  const total = shares.reduce((sum, { grams }) => sum + grams, 0);
  if (total <= 0) return undefined;

  const gap = shares.some(({ kind }) => kind === 'inclusions') ? GAP_PCT : 0;
  let at = 0;
  const bars = shares.map(({ kind, grams }) => {
    if (kind === 'inclusions') at += gap;
    const width = (grams / total) * (100 - gap);
    const bar = html`<rect class="${kind}" x="${places(at)}%" width="${places(width)}%" y="1" height="26"/>`;
    at += width;
    return bar;
  });
  const items = shares.map(
    ({ kind, label, grams }) =>
      html`<li><svg class="key" aria-hidden="true" width="12" height="12"><rect class="${kind}" x="1" y="1" width="10" height="10"/></svg> ${label} <b>${weight(grams)}</b> <span class="pct">${percent((100 * grams) / total)} %</span></li>`,
  );
  return html`<section id="make-up" class="make-up" aria-labelledby="make-up-name"><h2 id="make-up-name">The dough by weight</h2>
<svg class="bar" width="100%" height="28" aria-hidden="true">${patterns}${bars}</svg>
<ul class="keys">${items}</ul></section>`;
}

/** Each share has its own texture beside its own colour. */
const patterns = html`<defs>
<pattern id="texture-water" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="ground" width="6" height="6"/><path class="line" d="M0 3h6"/></pattern>
<pattern id="texture-other" width="6" height="6" patternUnits="userSpaceOnUse"><rect class="ground" width="6" height="6"/><path class="line" d="M-1 7 7-1M-1 1l2-2M5 7l2-2"/></pattern>
<pattern id="texture-inclusions" width="7" height="7" patternUnits="userSpaceOnUse"><rect class="ground" width="7" height="7"/><circle class="dot" cx="2" cy="2" r="1.3"/><circle class="dot" cx="5.5" cy="5.5" r="1.3"/></pattern>
</defs>`;

function sharesOf({ formula, sheet }: PreviewInput): readonly Share[] {
  // A ripe culture brings flour and water; how much of each, its line says.
  const contents = new Map<string, { flour: number; water: number }>();
  for (const { key, grams, flourGrams, waterGrams, part } of formula.parts.flatMap((each) => each.lines)) {
    if (part === undefined && grams !== null && grams > 0 && !contents.has(key)) {
      contents.set(key, { flour: flourGrams / grams, water: waterGrams / grams });
    }
  }
  let [flour, water, other, inclusions] = [0, 0, 0, 0];
  const others: string[] = [];
  for (const { key, name, role, grams } of sheet.rows) {
    if (grams === null || grams <= 0) continue;
    if (role === 'inclusion') {
      inclusions += grams;
      continue;
    }
    const share = contents.get(key) ?? { flour: role === 'flour' ? 1 : 0, water: 0 };
    flour += grams * share.flour;
    water += grams * share.water;
    const rest = grams * (1 - share.flour - share.water);
    if (rest > 0.01) {
      other += rest;
      others.push(name);
    }
  }
  water -= Math.min(water, sheet.cookedOffGrams);
  const shares: readonly Share[] = [
    { kind: 'flour', label: 'Flour', grams: flour },
    { kind: 'water', label: 'Water', grams: water },
    { kind: 'other', label: others.length > 0 && others.length <= 4 ? `Other (${others.join(', ')})` : 'Other', grams: other },
    { kind: 'inclusions', label: 'Inclusions, carried by it', grams: inclusions },
  ];
  return shares.filter(({ grams }) => grams > 0);
}

/** For coordinates: enough decimals to be exact on any screen. */
export function places(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
