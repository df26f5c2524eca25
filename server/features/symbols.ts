/** The outline: formulas with their parts and the lines of each; plans, records, ingredients and used files beside them. */
import type { DocumentSymbol } from 'vscode-languageserver';
import type { Block, BodyNode, Head, Line, Span } from '../../grammar';
import type { PlacedSection, ProjectFile } from '../project/file';
import { endOfBlock } from '../project/file';
import { gramsOrNothing } from './shared/markdown';
import { SymbolKind } from './shared/protocol';

/** Beyond so many lines an outline is of no use to anybody: blocks are listed without their lines. */
const MOST_LINES = 5000;

export function documentSymbolsOf(file: ProjectFile): DocumentSymbol[] {
  if (file.page !== undefined) return []; // a Markdown page has the outline of its headings
  const withLines = file.lineIndex.lineCount <= MOST_LINES;
  return file.sections.flatMap(section => sectionSymbols(file, section, withLines));
}

function sectionSymbols(file: ProjectFile, section: PlacedSection, withLines: boolean): readonly DocumentSymbol[] {
  const symbols = section.section.blocks.flatMap((block, index) => blockSymbol(file, section, block, index, withLines) ?? []);
  const [first, ...rest] = symbols;
  if (first === undefined || !isOpening(section)) return symbols;
  const last = rest.at(-1);
  const end = last === undefined ? first.range.end : later(first.range.end, last.range.end);
  return [{ ...first, range: { start: first.range.start, end }, children: [...(first.children ?? []), ...rest] }];
}

function later(a: DocumentSymbol['range']['end'], b: DocumentSymbol['range']['end']): DocumentSymbol['range']['end'] {
  return a.line > b.line || (a.line === b.line && a.character > b.character) ? a : b;
}

function isOpening({ section }: PlacedSection): boolean {
  const kind = section.blocks[0]?.head.node.kind;
  return kind === 'formula' || kind === 'dish' || kind === 'plan';
}

function blockSymbol(
  file: ProjectFile, section: PlacedSection, block: Block, index: number, withLines: boolean,
): DocumentSymbol | undefined {
  const offset = file.tree.blocks[section.firstBlock + index]?.offset ?? 0;
  const words = headWords(block.head.node, section, index);
  if (words === undefined) return undefined;
  const rangeOf = ({ start, end }: Span) => file.lineIndex.rangeOf(offset + start, offset + end);
  const children = withLines ? block.lines.flatMap(line => lineSymbol(line, block, rangeOf)) : [];
  return {
    name: words.name,
    ...(words.detail !== '' && { detail: words.detail }),
    kind: words.kind,
    range: rangeOf({ start: block.head.start, end: Math.max(block.head.end, endOfBlock(block)) }),
    selectionRange: rangeOf(block.head.node),
    children,
  };
}

interface Words {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
}

function headWords(node: Head, section: PlacedSection, index: number): Words | undefined {
  switch (node.kind) {
    case 'formula':
    case 'dish': {
      const base = section.section.blocks[0]?.lines.map(line => line.node).find(line => line.kind === 'based-on');
      const detail = base === undefined ? gramsOrNothing(section.analysis.totals?.dough_g) ?? '' : `variant of ${base.base.text}`;
      return { name: shown(node.name, node.kind), detail, kind: SymbolKind.Class };
    }
    case 'part': {
      const made = section.analysis.formula?.parts.find(part => part.block === index);
      const grams = gramsOrNothing(made?.yieldGrams) ?? '';
      const named = node.name !== undefined && node.name.text.trim() !== '';
      const detail = [named && node.part !== 'part' ? node.part : '', grams].filter(text => text !== '').join(', ');
      return { name: named ? node.name.text : node.part, detail, kind: SymbolKind.Module };
    }
    case 'plan': return { name: shown(node.name, 'plan'), detail: node.name === undefined ? '' : 'plan', kind: SymbolKind.Event };
    case 'ingredient': return { name: shown(node.name, 'ingredient'), detail: node.name === undefined ? '' : 'ingredient', kind: SymbolKind.Constant };
    case 'use': return { name: shown(node.path, 'use'), detail: node.path === undefined ? '' : 'use', kind: SymbolKind.File };
    case 'record': return { name: `record ${node.date ?? ''}`.trim(), detail: '', kind: SymbolKind.Event };
    case 'steps': return { name: 'steps', detail: '', kind: SymbolKind.Function };
    case 'unknown':
    case 'none':
      return undefined;
  }
}

/** An outline may not hold a name of nothing. */
function shown(name: { readonly text: string } | undefined, otherwise: string): string {
  return name?.text.trim() || otherwise;
}

function lineSymbol(line: Line, block: Block, rangeOf: (span: Span) => DocumentSymbol['range']): DocumentSymbol[] {
  const words = lineWords(line.node, block);
  if (words === undefined) return [];
  const children = line.children.flatMap(child => lineSymbol(child, block, rangeOf));
  const own = rangeOf(line);
  const last = children.at(-1);
  return [{
    name: words.name,
    ...(words.detail !== '' && { detail: words.detail }),
    kind: words.kind,
    range: last === undefined ? own : { start: own.start, end: later(own.end, last.range.end) },
    selectionRange: rangeOf(line.node),
    ...(children.length > 0 && { children }),
  }];
}

/** What the outline says of a line; undefined for lines that are not worth a place in it (properties, comments). */
function lineWords(node: BodyNode, block: Block): Words | undefined {
  const written = (span: Span): string => block.text.slice(span.start, span.end);
  switch (node.kind) {
    case 'ingredient': return { name: shown(node.name, written(node)), detail: written(node.amount), kind: SymbolKind.Field };
    case 'flour-share': return { name: `flour in ${node.part.text}`, detail: written(node.amount), kind: SymbolKind.Field };
    case 'uses': return { name: shown(node.formula, written(node)), detail: `uses ${written(node.amount)}`, kind: SymbolKind.Field };
    case 'step': {
      const name = shown(node.label, node.step);
      const detail = node.duration === undefined ? '' : written(node.duration);
      return { name, detail, kind: SymbolKind.Event };
    }
    case 'property':
      if (node.value.kind === 'order') return { name: shown(node.value.formula, 'bake'), detail: 'bake', kind: SymbolKind.Field };
      return undefined;
    case 'swap':
    case 'set':
    case 'add':
    case 'drop':
      return { name: written(node), detail: '', kind: SymbolKind.Property };
    case 'makes':
    case 'based-on':
    case 'blank':
    case 'comment':
    case 'bad':
      return undefined;
  }
}
