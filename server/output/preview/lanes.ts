/**
 * A day drawn as lanes, time running to the right: nights shaded, hours off hatched. Work is a filled bar, waiting a hollow one.
 * Horizontal places are per cents, so the picture fits any width without scaling its letters. What the drawing says, a list
 * elsewhere says in words; every bar is named, and leads to its line by mouse and by keyboard.
 */
import type { Window } from '../../core/timeline/solve';
import { html, lineAttribute, type Markup } from './html';
import { places } from './make-up';
import { ticksOf, type Ticks } from './ticks';

export interface Bar {
  /** A word or two, in the bar or above it. */
  readonly label: string;
  /** All there is to say of it, for a pointer and a screen reader. */
  readonly title: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly isWork: boolean;
  /** Lower ones are named first where there is no room for all. */
  readonly rank: number;
  /** Line of the file, from 1. */
  readonly line: number | undefined;
  /** Moments at which a hand is needed. */
  readonly handMs: readonly number[];
  /** Between these it can begin, where it need not begin when it does. */
  readonly slack: { readonly fromMs: number; readonly toMs: number } | undefined;
}

/** Something short inside a bar: a fold in its bulk. */
export interface Dot {
  readonly title: string;
  readonly ms: number;
  readonly line: number | undefined;
  /** Index of the row of its bar. */
  readonly row: number;
}

export interface Lane {
  readonly name: string;
  /** Rows of bars that do not overlap. */
  readonly rows: readonly (readonly Bar[])[];
  readonly dots: readonly Dot[];
}

export interface LanesInput {
  readonly lanes: readonly Lane[];
  readonly startMs: number;
  readonly endMs: number;
  readonly zone: string;
  /** When nobody works. */
  readonly off: readonly Window[];
  /** Says what the whole is. */
  readonly words: string;
}

interface Scale {
  readonly startMs: number;
  readonly endMs: number;
  readonly ticks: Ticks;
  readonly off: readonly Window[];
}

/** The picture with what its signs mean. The page's script draws the line of the present in it, and moves along the bars by arrow keys. */
export function lanesPicture({ lanes, startMs, endMs, zone, off, words }: LanesInput): Markup {
  const scale: Scale = { startMs, endMs, ticks: ticksOf(startMs, endMs, zone), off };
  const bars = lanes.flatMap(({ rows }) => rows.flat());
  const first = bars.reduce<Bar | undefined>((least, bar) => (least === undefined || bar.startMs < least.startMs ? bar : least), undefined);
  return html`<figure><div class="scroller"><div class="lanes" role="group" aria-label="${words}" data-from="${startMs}" data-to="${endMs}">
${axis(scale)}${lanes.map((lane) => drawLane(lane, scale, first))}</div></div>
<figcaption>${keys(scale, bars)}</figcaption></figure>`;
}

function keys({ ticks, off }: Scale, bars: readonly Bar[]): Markup {
  const key = (words: string, inside: Markup): Markup => html`<span class="key-words"><svg class="key" aria-hidden="true" width="22" height="12">${inside}</svg> ${words}</span> `;
  return html`${key('hands at work', html`<rect class="hands-on" x="1" y="1" width="20" height="10"/>`)}
${key('by itself', html`<rect class="waiting" x="1" y="1" width="20" height="10"/>`)}
${bars.some(({ handMs }) => handMs.length > 0) && key('a hand, for a moment', html`<path class="hand" d="M11 2l5 8H6z"/>`)}
${bars.some(({ slack }) => slack !== undefined) && key('can begin between', html`<path class="whisker" d="M2 2v8M2 6h18M20 2v8"/>`)}
${off.length > 0 && key('asleep or away', html`<rect class="off" width="22" height="12"/>`)}
${ticks.nights.length > 0 && key('night', html`<rect class="night" width="22" height="12"/>`)}
<span class="key-words now-key"><svg class="key" aria-hidden="true" width="22" height="12"><line class="now-line" x1="11" x2="11" y2="12"/></svg> now</span>`;
}

/** Per cent of the width from the left. */
function x(ms: number, { startMs, endMs }: Scale): number {
  return Math.max(0, Math.min(100, (100 * (ms - startMs)) / (endMs - startMs)));
}

const LABEL_HEIGHT = 14;
const BAR_HEIGHT = 18;
const SIGNS_HEIGHT = 10;
const ROW_HEIGHT = LABEL_HEIGHT + BAR_HEIGHT + SIGNS_HEIGHT;
/** Width of a letter as a share of a picture of 26 rem, the narrowest that the style sheet allows. */
const LETTER_PCT = 1.4;
/** A bar that is narrower than this cannot be seen, and hardly be clicked. */
const LEAST_BAR_PCT = 0.5;

function drawLane({ name, rows, dots }: Lane, scale: Scale, first: Bar | undefined): Markup {
  const height = rows.length * ROW_HEIGHT + 2;
  return html`<div class="lane-name">${name}</div><svg class="lane" width="100%" height="${height}">${backdrop(scale, height)}
${rows.flatMap((row, at) => drawRow(row, at * ROW_HEIGHT, scale, first))}
${dots.map((dot) => drawDot(dot, scale))}<line class="now" y2="${height}"/></svg>`;
}

function drawRow(row: readonly Bar[], top: number, scale: Scale, first: Bar | undefined): Markup[] {
  const above = labelsAbove(row, scale);
  return row.map((bar, index) => {
    const left = x(bar.startMs, scale);
    const width = Math.max(x(bar.endMs, scale) - left, LEAST_BAR_PCT);
    const before = row[index - 1];
    // A bar at the right edge grows to the left when it is too narrow to be seen.
    const from = Math.min(left, 100 - width);
    const name = fits(bar, scale) && html`<text x="5" y="${BAR_HEIGHT / 2}">${bar.label}</text>`;
    const seam = bar.isWork && before?.isWork === true && before.endMs === bar.startMs && html`<line class="seam" y2="${BAR_HEIGHT}"/>`;
    return html`${labelAbove(bar, above.get(bar), top + LABEL_HEIGHT - 4, scale)}${signs(bar, top + LABEL_HEIGHT + BAR_HEIGHT, scale)}
<svg class="step ${bar.isWork ? 'hands-on' : 'waiting'}" x="${places(from)}%" y="${top + LABEL_HEIGHT}" width="${places(width)}%" height="${BAR_HEIGHT}"${barAttributes(bar, bar === first)}><title>${bar.title}</title><rect width="100%" height="100%"/>${seam}${name}</svg>`;
  });
}

/** One stop of the tab key for the whole picture; arrows go on from there. */
function barAttributes({ title, line, startMs }: { readonly title: string; readonly line: number | undefined; readonly startMs: number }, isFirst: boolean): Markup {
  if (line === undefined) return html` role="img" aria-label="${title}"`;
  return html`${lineAttribute(line)} role="button" tabindex="${isFirst ? 0 : -1}" aria-label="${title}" data-at="${startMs}"`;
}

/** Under a bar: a triangle where a hand is needed, a whisker as far as it can be moved. */
function signs({ handMs, slack, startMs }: Bar, y: number, scale: Scale): Markup {
  const whisker = slack && html`<line class="whisker" x1="${places(x(slack.fromMs, scale))}%" x2="${places(x(slack.toMs, scale))}%" y1="${y + 6}" y2="${y + 6}"/>${[slack.fromMs, startMs, slack.toMs]
    .filter((ms) => ms >= scale.startMs && ms <= scale.endMs)
    .map((ms) => html`<line class="whisker" x1="${places(x(ms, scale))}%" x2="${places(x(ms, scale))}%" y1="${y + 3}" y2="${y + 9}"/>`)}`;
  const hands = handMs.map((ms) => html`<svg class="hand-at" x="${places(x(ms, scale))}%" y="${y}"><path class="hand" d="M0 1l4 7h-8z"/></svg>`);
  return html`${whisker}${hands}`;
}

/** A name that would go on past the right edge ends there, so that no width of letters cuts it off. */
function labelAbove(bar: Bar, at: number | undefined, y: number, scale: Scale): Markup | undefined {
  if (at === undefined) return undefined;
  const isLast = at < x(bar.startMs, scale);
  return html`<text class="above" x="${isLast ? 100 : places(at)}%" y="${y}" text-anchor="${isLast ? 'end' : 'start'}">${bar.label}</text>`;
}

function labelPct({ label }: Bar): number {
  return (label.length + 1) * LETTER_PCT;
}

function fits(bar: Bar, scale: Scale): boolean {
  return x(bar.endMs, scale) - x(bar.startMs, scale) >= labelPct(bar);
}

/**
 * Where the names of bars too short for them stand, above the bars; those that a baker looks for get their place first.
 * What finds none is named in the list below the picture, as every step is.
 */
function labelsAbove(row: readonly Bar[], scale: Scale): ReadonlyMap<Bar, number> {
  const placed = new Map<Bar, number>();
  for (const bar of [...row].filter((candidate) => !fits(candidate, scale)).sort((a, b) => a.rank - b.rank || a.startMs - b.startMs)) {
    const at = Math.max(0, Math.min(x(bar.startMs, scale), 100 - labelPct(bar)));
    const isFree = [...placed].every(([other, from]) => at + labelPct(bar) <= from || at >= from + labelPct(other));
    if (isFree) placed.set(bar, at);
  }
  return placed;
}

/** A filled mark on the bar's lower edge, where it leaves the bar's name alone. */
function drawDot({ title, ms, line, row }: Dot, scale: Scale): Markup {
  return html`<g class="inside"${barAttributes({ title, line, startMs: ms }, false)}><title>${title}</title><circle cx="${places(x(ms, scale))}%" cy="${row * ROW_HEIGHT + LABEL_HEIGHT + BAR_HEIGHT - 1}" r="3.5"/></g>`;
}

/** Nights, hours off and hour lines behind a lane. */
function backdrop(scale: Scale, height: number): Markup {
  const band = (kind: 'night' | 'off', fromMs: number, toMs: number): Markup => (
    html`<rect class="${kind}" x="${places(x(fromMs, scale))}%" width="${places(x(toMs, scale) - x(fromMs, scale))}%" height="${height}"/>`
  );
  const nights = scale.ticks.nights.map(({ fromMs, toMs }) => band('night', fromMs, toMs));
  const off = scale.off.map(({ startMs, endMs }) => band('off', startMs, endMs));
  const hours = scale.ticks.hours.map(({ ms }) => html`<line class="hour" x1="${places(x(ms, scale))}%" x2="${places(x(ms, scale))}%" y2="${height}"/>`);
  return html`${nights}${off}${hours}`;
}

/** Days and hours above the lanes. */
function axis(scale: Scale): Markup {
  const anchorOf = (at: number): string => (at < 4 ? 'start' : at > 96 ? 'end' : 'middle');
  const hours = scale.ticks.hours.map(({ ms, label }) => {
    const at = x(ms, scale);
    return html`<text class="hour-label" x="${places(at)}%" y="28" text-anchor="${anchorOf(at)}">${label}</text>`;
  });
  // A first day that is nearly over leaves no room for its name before the next one's.
  const days = scale.ticks.days.filter(({ ms }, at, all) => {
    const next = all[at + 1];
    return next === undefined || x(next.ms, scale) - x(ms, scale) >= 11 * LETTER_PCT;
  });
  const names = days.map(({ ms, label }) => {
    const at = x(ms, scale);
    const late = at > 100 - 11 * LETTER_PCT;
    return html`<text class="day-label" x="${places(at)}%" y="12" text-anchor="${late ? 'end' : 'start'}">${label}</text>`;
  });
  return html`<div class="lane-name"></div><svg class="axis" width="100%" height="32" aria-hidden="true"><defs><pattern id="texture-off" width="7" height="7" patternUnits="userSpaceOnUse"><path class="hatch" d="M-1 8 8-1M-1 1l2-2M6 8l2-2"/></pattern></defs>${names}${hours}</svg>`;
}
