/** The pieces of a block that have a colour of their own, by what they are. Names are not among them: what they mean takes more than the block. */
import type { Block, BodyNode, Comment, Span, StepDetail } from '../../../grammar';
import { everyLine } from '../../project/file';
import { remembered } from '../../project/remembered';

/** Kinds of pieces: what they are called in the protocol, with its own word where it has one. */
export type PieceKind = 'keyword' | 'property' | 'function' | 'macro' | 'modifier' | 'number' | 'unit' | 'enumMember' | 'role' | 'string' | 'comment';

export interface Piece extends Span {
  readonly kind: PieceKind;
}

/** In the order of the text, none over another. Offsets are within the block. */
export const piecesOf = remembered(piecesIn);

function piecesIn(block: Block): readonly Piece[] {
  const pieces: Piece[] = [];
  const take = (kind: PieceKind, { start, end }: Span): void => {
    if (end > start) pieces.push({ kind, start, end });
  };
  const values = (span: Span, words: Words): void => {
    for (const piece of valuesIn(block.text, span, words)) pieces.push(piece);
  };
  /** One that accepts a finding has colours inside it, which are left as they are. */
  const commentOf = ({ comment }: { readonly comment?: Comment }): void => {
    if (comment !== undefined && comment.accept === undefined) take('comment', comment);
  };
  for (const line of block.leading) commentOf(line);
  const { node } = block.head;
  if ('keyword' in node) take('keyword', node.keyword);
  if (node.kind === 'use' && node.path !== undefined) take('string', node.path);
  if (node.kind === 'plan' && node.name !== undefined) take('string', node.name);
  if (node.kind === 'part' && node.temperature !== undefined) values(node.temperature, 'all');
  if (node.kind === 'record') values({ start: node.keyword.end, end: node.end }, 'short');
  commentOf(block.head);
  for (const line of everyLine(block)) {
    linePieces(line.node, take, values);
    commentOf(line);
  }
  return pieces.sort((a, b) => a.start - b.start).filter((piece, index, all) => piece.start >= (all[index - 1]?.end ?? 0));
}

type Take = (kind: PieceKind, span: Span) => void;
type Values = (span: Span, words: Words) => void;

function linePieces(node: BodyNode, take: Take, values: Values): void {
  switch (node.kind) {
    case 'ingredient':
      values(node.amount, 'all');
      if (node.temperature !== undefined) values(node.temperature, 'all');
      if (node.hydrationPct !== undefined) values({ start: node.hydrationPct.start, end: node.hydrationPct.end }, 'all');
      if (node.role !== undefined) take('role', { start: node.role.end - node.role.role.length, end: node.role.end });
      if (node.purpose !== undefined) take('string', { start: node.purpose.end - node.purpose.text.length, end: node.purpose.end });
      if (node.note !== undefined) take('string', node.note);
      return;
    case 'flour-share':
      return values(node.amount, 'all');
    case 'uses':
      values(node.amount, 'all');
      if (node.note !== undefined) take('string', node.note);
      return;
    case 'step':
      take('function', node.keyword);
      if (node.label !== undefined) take('string', node.label);
      if (node.duration !== undefined) values(node.duration, 'all');
      if (node.temperature !== undefined) values(node.temperature, 'all');
      for (const detail of node.details) detailPieces(detail, take, values);
      return;
    case 'makes':
      take('property', node.keyword);
      return values({ start: node.keyword.end, end: node.end }, 'short');
    case 'property':
      take('property', node.keyword);
      if (node.value.kind === 'text') take('string', node.value.text);
      else if (node.value.kind === 'list') node.value.items.forEach(item => take('string', item));
      else if (node.value.kind !== 'name') values({ start: node.keyword.end, end: node.end }, 'short');
      return;
    case 'based-on':
    case 'swap':
    case 'drop':
      return take('macro', node.keyword);
    case 'set':
      take('macro', node.keyword);
      return values(node.amount, 'all');
    case 'add':
      take('macro', node.keyword);
      return linePieces(node.line, take, values);
    case 'blank':
    case 'comment':
    case 'bad':
      return;
  }
}

function detailPieces(detail: StepDetail, take: Take, values: Values): void {
  switch (detail.kind) {
    case 'lid':
    case 'steam':
    case 'by':
    case 'attended':
      return take('modifier', detail);
    case 'until-core':
      return values(detail.temperature, 'all');
    case 'until-volume':
      return values({ start: detail.percent.start, end: detail.end }, 'all');
    case 'until':
      return take('string', detail.text);
    case 'add':
      return values({ start: detail.start + 'add'.length, end: detail.name.start }, 'all');
    case 'at':
      return values(detail.offset, 'all');
    case 'every':
      return values(detail.interval, 'all');
    case 'times':
      return values(detail.count, 'all');
    case 'note':
      return take('string', detail.text);
  }
}

/** Of a span that is nothing but a value, every word is a unit; of any other, only what is written as one behind a number. */
type Words = 'all' | 'short';

const NUMBER = String.raw`\d{4}-\d{2}-\d{2}|\d{1,2}:\d{2}|\d+[ \t]+\d+[/⁄]\d+|\d+[/⁄]\d+|(?:\d+(?:[.,]\d+)?|\.\d+)?[¼½¾⅓⅔⅛⅜⅝⅞]|\d+(?:[.,]\d+)*|\.\d+`;
const WORD = String.raw`fl[ \t]+oz|[%٪℃℉]|(?:[°º˚][ \t]*)?\p{L}+`;
const VALUES = new RegExp(String.raw`["“„«][^"”“»]*["”“»]?|(?<number>${NUMBER})|(?<word>${WORD})`, 'gu');
const SHORT_UNIT = /^(?:%|°?[CF]|kg|mg|g|oz|lb|fl[ \t]+oz|ml|l|tsp|tbsp|cups?|min|s|h|d|m|ft)$/;
const CONSTANT = /^(?:all|pinch|pinches|overnight|room|fridge|half|third|quarter|rest)$/i;
const LINK = /^(?:a|an|and|at|of|or|the|to)$/i;

function valuesIn(text: string, { start, end }: Span, words: Words): readonly Piece[] {
  const found: Piece[] = [];
  let afterNumber = false;
  for (const match of text.slice(start, end).matchAll(VALUES)) {
    const { number, word } = match.groups ?? {};
    const at = { start: start + match.index, end: start + match.index + match[0].length };
    if (number !== undefined) found.push({ kind: 'number', ...at });
    else if (word !== undefined && words === 'all' && CONSTANT.test(word)) found.push({ kind: 'enumMember', ...at });
    else if (word !== undefined && !LINK.test(word) && (words === 'all' || (afterNumber && SHORT_UNIT.test(word)))) found.push({ kind: 'unit', ...at });
    afterNumber = number !== undefined;
  }
  return found;
}
