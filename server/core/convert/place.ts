/** A plain text, line by line: which lines are ingredients, which are the method, and what the rest is. */
import { hasWords, withoutEnd } from './characters';
import { durationAt } from './durations';
import { markerOf, partHeading, type Marker } from './headings';
import { hasAmount } from './ingredient';
import type { PlacedKind, PlacedLine } from './model';
import { sentencesOf } from './sentences';
import { tokensOf } from './tokens';
import { isYield } from './yields';

type Mode = 'head' | 'part' | Marker;

interface Bare {
  readonly text: string;
  readonly line: number;
  /** As a heading, without its colon. */
  readonly heading: string;
  readonly isMarked: boolean;
  readonly isNumbered: boolean;
  readonly isListed: boolean;
  /** A blank line stands above. */
  readonly isFirst: boolean;
}

/** Words that a sentence of a method begins with. */
const ORDERS = new Set(`mix combine add stir knead let leave cover bake preheat shape divide place put pour whisk fold heat warm dissolve remove transfer turn
  cut roll brush dust grease line rest proof prove cool serve score slash feed take make bring beat rub soak drain set return reduce lower uncover
  refrigerate chill boil in then after when once next meanwhile while on work form flatten stretch tip scrape spread fill autolyse ferment bulk preshape
  allow give wrap store slice sift crumble melt cook simmer toast scatter press punch knock check use begin start finally now`.split(/\s+/));
/** Facts that the language has no word for. */
const FACT = /^(?:prep(?:aration)?|cook(?:ing)?|bak(?:e|ing)|total|active|hands[- ]on|rest(?:ing)?|rising|proofing|ready in|time|difficulty|level|cuisine|category|course|keywords?|tags?|calories|nutrition|published|date|equipment|tools?)\b[\p{L} ]{0,24}[:=]/iu;
const SOURCE = /^(?:source|from|adapted from|via|url|link)\s*:\s*(?=\S)/i;
/** Of a mail: what it is about may be what the bread is called. */
const SUBJECT = /^subject\s*:\s*(?:(?:re|fwd?)\s*:\s*)?(?=\S)/i;
const AUTHOR = /^(?:author|by|written by|recipe by)\s*:\s*(?=\S)/i;
const IT = /^(?:it|this|that|the dough)\s+(?=makes?\b|yields\b|gives\b)/i;
const SENTENCE_WORDS = 7;
const LONGEST_INGREDIENT_TOKENS = 40;
/** A line that is longer than this and ends without a full stop was broken by whoever sent it. */
const BROKEN_LINE = 55;

/** @param lines of the source, tidied */
export function placeLines(lines: readonly string[]): readonly PlacedLine[] {
  const bare = bareLines(lines);
  const placed: PlacedLine[] = [];
  let mode: Mode = 'head';
  bare.forEach((line, index) => {
    const marker = markerOf(line.heading);
    if (marker !== undefined) {
      placed.push({ kind: 'marker', text: line.text, line: line.line });
      mode = marker;
      return;
    }
    const joined = continued(placed.at(-1), line, bare[index - 1], mode);
    if (joined !== undefined) {
      placed[placed.length - 1] = joined;
      return;
    }
    const kind = kindOf(line, bare.slice(index + 1, index + 3), mode, placed);
    const text = kind === 'part' || kind === 'step-heading' ? line.heading : kind === 'source' ? line.text.replace(SOURCE, '') : kind === 'author' ? line.text.replace(AUTHOR, '') : kind === 'title' ? line.text.replace(SUBJECT, '') : line.text;
    placed.push({ kind, text, line: line.line });
    mode = modeAfter(kind, mode);
  });
  return placed.flatMap(withYield);
}

/** `Cinnamon buns (makes 12)` and, in a mail, `It makes two loaves.` say how much is made, beside what else they say. */
function withYield(line: PlacedLine, _: number, all: readonly PlacedLine[]): readonly PlacedLine[] {
  if (all.some(({ kind }) => kind === 'yield')) return [line];
  const [, name = '', inside = ''] = /^(.{2,80}?)\s?[([]([^()[\]]{1,60})[)\]]$/.exec(line.text) ?? [];
  if (line.kind === 'title' && isYield(inside)) return [{ ...line, text: name }, { kind: 'yield', text: inside, line: line.line }];
  if (line.kind !== 'note') return [line];
  const sentences = sentencesOf(line.text);
  const said = sentences.findIndex((sentence) => isYield(sentence.replace(IT, '')));
  if (said < 0) return [line];
  const rest = sentences.filter((_sentence, index) => index !== said).join(' ');
  const made: PlacedLine = { kind: 'yield', text: (sentences[said] ?? '').replace(IT, ''), line: line.line };
  return rest === '' ? [made] : [{ ...line, text: rest }, made];
}

function modeAfter(kind: PlacedKind, mode: Mode): Mode {
  switch (kind) {
    case 'part': return 'part';
    case 'ingredient': return 'ingredients';
    case 'step': case 'step-heading': return 'method';
    case 'title': case 'yield': case 'source': case 'author': case 'note': case 'fact': case 'words': case 'marker': return mode;
  }
}

function bareLines(lines: readonly string[]): readonly Bare[] {
  const bare: Bare[] = [];
  let isFirst = true;
  lines.forEach((raw, index) => {
    if (!hasWords(raw)) {
      isFirst = true;
      return;
    }
    let text = raw.replace(/^(?:> ?){1,9}/, '').trim();
    const isHash = /^#{1,6}\s/.test(text);
    text = text.replace(/^#{1,6}\s+/, '').replace(/^\|/, '').trim();
    if (text.endsWith('|')) text = text.slice(0, -1).trim();
    const isBold = /^(\*\*|__)[^*_]{1,100}(?:\*\*|__):?$/.test(text);
    text = (isBold ? text.replace(/^(?:\*\*|__)|(?:\*\*|__)(?=:?$)/g, '') : text).replace(/\*\*([^*]{1,200})\*\*/g, '$1');
    const listed = text.replace(/^(?:->|=>|[-*•·–—▢☐□◦‣▪+✓✔→⇒]|\[[ xX]?\])\s+/u, '');
    const numbered = listed.replace(/^(?:step\s{0,3})?\d{1,2}\s?[.):]\s+|^step\s{1,3}\d{1,2}\s{1,3}/i, '');
    const isMarked = isHash || isBold || /:$/.test(numbered);
    bare.push({
      text: numbered.trim(), line: index + 1, heading: withoutEnd(numbered, ': '), isMarked,
      isNumbered: numbered !== listed, isListed: listed !== text, isFirst,
    });
    isFirst = false;
  });
  return bare.filter(({ text }) => hasWords(text));
}

/** The line above with this one behind it, where a mail program has broken them in two. */
function continued(above: PlacedLine | undefined, line: Bare, lineAbove: Bare | undefined, mode: Mode): PlacedLine | undefined {
  if (above === undefined || lineAbove === undefined || line.isFirst || line.isListed || line.isNumbered || line.isMarked || lineAbove.isMarked) return undefined;
  const isSmall = /^\p{Ll}/u.test(line.text);
  const isOpen = !/[.!?:;]["'”’)]?$/.test(above.text);
  const joined: PlacedLine = { ...above, text: `${above.text} ${line.text}` };
  switch (above.kind) {
    case 'step': return mode === 'method' && isOpen && (isSmall || lineAbove.text.length >= BROKEN_LINE) ? joined : undefined;
    case 'note': return isOpen && (isSmall || lineAbove.text.length >= BROKEN_LINE) && !hasAmount(line.text).leads ? joined : undefined;
    case 'ingredient': return isSmall && /[,;]$/.test(above.text) && !hasAmount(line.text).leads ? joined : undefined;
    case 'title': case 'yield': case 'source': case 'author': case 'fact': case 'part': case 'words': case 'step-heading': case 'marker': return undefined;
  }
}

function kindOf(line: Bare, following: readonly Bare[], mode: Mode, placed: readonly PlacedLine[]): PlacedKind {
  const { text } = line;
  const amount = hasAmount(text);
  const isTime = durationAt(tokensOf(text.slice(0, 60)), 0) !== undefined;
  const leads = amount.leads && !isTime;
  const isFollowed = following.slice(0, 2).some((each) => Object.values(hasAmount(each.text)).includes(true));
  if (isYield(text)) return 'yield';
  if (!leads && SOURCE.test(text)) return 'source';
  if (!leads && AUTHOR.test(text)) return 'author';
  if (!leads && mode !== 'method' && FACT.test(text)) return 'fact';
  if (mode === 'notes') return 'note';
  const heading = leads || amount.trails ? undefined : partHeading(line.heading, line.isMarked);
  // Without a colon it is one only if ingredients follow.
  const isTitled = placed.length === 0 && !line.isMarked && text.split(' ').length > 1 && !/^for /i.test(text);
  // `scald` in the list of the dough is the scald from above.
  const isTakenIn = !line.isMarked && !line.isFirst && placed.some((each) => each.kind === 'part' && each.text.toLowerCase() === line.heading.toLowerCase());
  const isHeading = heading !== undefined && !isTitled && !isTakenIn && (line.isMarked || (!line.isListed && isFollowed && !/\b(?:all|whole|from above|ripe|active)\b/i.test(text)));
  if (isHeading && (heading.isKnown || placed.length > 0)) return mode === 'method' && !isFollowed ? 'step-heading' : 'part';
  if (isTableWords(text)) return 'words';
  if (/[|\t]/.test(text) && /\d/.test(text) && mode !== 'method') return 'ingredient';
  const isOrder = isOrderLike(line);
  switch (mode) {
    case 'head':
      // `100 % rye`, alone above the list, is what the bread is called.
      if (placed.length === 0 && /^\d+ ?%/.test(text) && following[0]?.isFirst === true) return 'title';
      if (leads && !isProse(text)) return 'ingredient';
      if (!placed.some(({ kind }) => kind === 'title') && isTitle(line, following[0], placed)) return 'title';
      if (amount.trails && !isOrder && !isProse(text)) return 'ingredient';
      return line.isNumbered && isOrder ? 'step' : 'note';
    case 'part':
    case 'ingredients':
      if (leads && !(isProse(text) && isOrder)) return 'ingredient';
      if (isOrder || isTime || isProse(text)) return 'step';
      return 'ingredient';
    case 'method':
      return leads && !line.isNumbered && !isOrder && !isProse(text) && placed.at(-1)?.kind !== 'step' ? 'ingredient' : 'step';
  }
}

/** `Ingredient | g | %`, `Total 172 %` */
function isTableWords(text: string): boolean {
  if (/^totals?\b/i.test(text) && /\d/.test(text)) return true;
  return /[|\t]/.test(text) && !/\d/.test(text);
}

/** A sentence that tells somebody to do something. */
function isOrderLike({ text, isNumbered }: Bare): boolean {
  const [first = ''] = /^[\p{L}-]+/u.exec(text) ?? [];
  const words = text.split(' ').length;
  return (ORDERS.has(first.toLowerCase()) && words >= 2 && !(words <= 5 && hasAmount(text).trails)) || (isNumbered && words >= 4 && !hasAmount(text).leads);
}

function isProse(text: string): boolean {
  const words = text.split(' ').length;
  return (words >= SENTENCE_WORDS && /[.!?]$/.test(text)) || tokensOf(text).length > LONGEST_INGREDIENT_TOKENS;
}

/** A short line at the top; below a greeting one that stands by itself in front of the ingredients. */
function isTitle({ text, isMarked, isFirst }: Bare, next: Bare | undefined, placed: readonly PlacedLine[]): boolean {
  const isTop = placed.every(({ kind }) => kind === 'fact' || kind === 'source');
  const isInFront = next !== undefined && isFirst && (hasAmount(next.text).leads || isYield(next.text) || markerOf(next.heading) !== undefined || next.isMarked);
  return (isTop || isInFront) && text.length <= 80 && !/[.,!?:;]$/.test(text) && (!isMarked || !text.endsWith(':')) && text.split(' ').length <= 12;
}
