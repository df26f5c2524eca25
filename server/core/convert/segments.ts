/** A line of ingredients cut where its commas, brackets and cells are, and what of each piece is an amount. */
import { amountAt, temperatureAt, type ReadAmount, type ReadTemperature } from './amounts';
import { isDash, isSign, isWord, sliceOf, type Token } from './tokens';

export interface Segment {
  /** `cell` for what stands behind a tab or a bar. */
  readonly kind: 'plain' | 'bracket' | 'cell';
  /** In front of the words, or without any. */
  readonly leading: readonly (ReadAmount | ReadTemperature)[];
  /** What is neither; empty where all of it is amounts. */
  readonly words: readonly Token[];
  /** Behind the words. */
  readonly trailing: readonly (ReadAmount | ReadTemperature)[];
}

/** A longer tail has no amounts that belong to the line. */
const LONGEST_TAIL = 14;

export function segmentsOf(tokens: readonly Token[]): readonly Segment[] {
  return cut(tokens).flatMap(({ kind, piece }) => (piece.length === 0 ? [] : [{ kind, ...readPiece(piece) }]));
}

interface Piece {
  readonly kind: Segment['kind'];
  readonly piece: readonly Token[];
}

function cut(tokens: readonly Token[]): readonly Piece[] {
  const pieces: Piece[] = [];
  let piece: Token[] = [];
  let cell = false;
  let depth = 0;
  const end = (bracket: boolean): void => {
    pieces.push({ kind: bracket ? 'bracket' : cell ? 'cell' : 'plain', piece });
    piece = [];
  };
  tokens.forEach((token, index) => {
    if (isSign(token, '(', '[', '{')) {
      if (depth === 0) end(false);
      else piece.push(token);
      depth += 1;
    } else if (isSign(token, ')', ']', '}')) {
      if (depth === 1) end(true);
      else if (depth > 1) piece.push(token);
      depth = Math.max(0, depth - 1);
    } else if (isSign(token, '|', '\t')) {
      end(depth > 0);
      depth = 0;
      cell = true;
    } else if (depth === 0 ? isCut(tokens, index) : isSign(token, ',', ';')) {
      end(depth > 0);
    } else {
      piece.push(token);
    }
  });
  end(depth > 0);
  return pieces;
}

/** A comma; a colon, a dash or dots between a name and its amount. */
function isCut(tokens: readonly Token[], index: number): boolean {
  const token = tokens[index];
  const [before, after] = [tokens[index - 1], tokens[index + 1]];
  if (isSign(token, ',', ';', ':', '=')) return true;
  if (isSign(token, '…')) return true;
  if (isSign(token, '.')) return isSign(after, '.') || isSign(before, '.') || after === undefined;
  return isDash(token) && token?.spaced === true && after?.spaced === true && !(before?.kind === 'number' && after.kind === 'number');
}

function readPiece(piece: readonly Token[]): Omit<Segment, 'kind'> {
  const leading: (ReadAmount | ReadTemperature)[] = [];
  let at = skipGlue(piece, 0);
  for (let found = measureAt(piece, at); found !== undefined; found = measureAt(piece, at)) {
    leading.push(found.value);
    at = found.next;
    const behind = skipGlue(piece, at);
    if (behind > at && measureAt(piece, behind) === undefined) break;
    at = behind;
  }
  const rest = piece.slice(at);
  const trailingFrom = tailOf(rest);
  const trailing = trailingFrom < rest.length ? (allMeasures(rest.slice(trailingFrom)) ?? []) : [];
  const words = rest.slice(0, trailingFrom);
  // `water at 30 C`
  return { leading, words: trailing[0]?.kind === 'temperature' && isWord(words.at(-1), 'at') ? words.slice(0, -1) : words, trailing };
}

/** A temperature or an amount; a bare `2 C` is two cups, for nothing in a dough is that cold. */
function measureAt(tokens: readonly Token[], index: number): { readonly value: ReadAmount | ReadTemperature; readonly next: number } | undefined {
  const temperature = temperatureAt(tokens, index);
  const isCups = temperature?.value.bake.endsWith(' C') === true && tokens[index + 1]?.text === 'C' && Math.abs(temperature.value.lowCelsius) < 10;
  return temperature === undefined || isCups ? amountAt(tokens, index) : temperature;
}

/** Over what may stand between two ways to say one amount. */
function skipGlue(tokens: readonly Token[], index: number): number {
  let at = index;
  while (isSign(tokens[at], '/', '=', '≈', '•', '·', '*', ':') || isWord(tokens[at], 'or') || (at === 0 && isDash(tokens[at]))) at += 1;
  return at;
}

/** Where amounts begin that run to the end: `flour 500 g 100 %`. A number alone is no amount there. */
function tailOf(tokens: readonly Token[]): number {
  for (let at = Math.max(1, tokens.length - LONGEST_TAIL); at < tokens.length; at += 1) {
    const isMiddleOfRange = isDash(tokens[at - 1]) || isWord(tokens[at - 1], 'to');
    if (tokens[at]?.kind === 'number' && !isMiddleOfRange && allMeasures(tokens.slice(at)) !== undefined) {
      return isWord(tokens[at - 1], 'about', 'approx', 'ca') && at > 1 ? at - 1 : at;
    }
  }
  return tokens.length;
}

function allMeasures(tokens: readonly Token[]): readonly (ReadAmount | ReadTemperature)[] | undefined {
  const found: (ReadAmount | ReadTemperature)[] = [];
  let at = 0;
  while (at < tokens.length) {
    const next = measureAt(tokens, at);
    if (next === undefined || (next.value.kind === 'amount' && next.value.measure === undefined)) return undefined;
    found.push(next.value);
    at = skipGlue(tokens, next.next);
    while (isSign(tokens[at], '.')) at += 1;
    // `water 400 g at 40 C`
    if (isWord(tokens[at], 'at') && temperatureAt(tokens, at + 1) !== undefined) at += 1;
  }
  return found.length === 0 ? undefined : found;
}

export function wordsOf(text: string, segment: Segment): string {
  return sliceOf(text, segment.words);
}
