/** What is under the cursor, in words and numbers. */
import type { Hover } from 'vscode-languageserver';
import { DETAIL_WORDS, ROLE_WORDS, STEP_WORDS } from '../../grammar';
import type { BlockKind, Head, Line, PropertyLine, Role, Span, StepLine, Temperature } from '../../grammar';
import { minutes } from '../core/checks/words';
import type { ResolvedLine, ResolvedPart } from '../core/formula/model';
import { blockAt, linesAt, sectionOfBlock } from '../project/file';
import type { BlockInFile, PlacedSection, ProjectFile } from '../project/file';
import { whyUnknown } from '../output/facts/unknown';
import { amountWords } from './shared/amounts';
import { elsewhereWords, factsWords, outcomeOf, partFacts } from './shared/facts';
import { ingredientWords } from './shared/ingredients';
import { bothScales, code, escaped, paragraphs } from './shared/markdown';
import { partBlock } from './shared/named';
import { nameAt } from './shared/names';
import type { Occurrence } from './shared/names';
import { planLineWords } from './shared/plan-hover';
import { recordLineWords, recordsWords } from './shared/records';
import { buildTimes, stepTimes, wholeTimes } from './shared/schedule-hover';
import { formulaWords, partWords } from './shared/totals';
import { changeHolding, changeWords, variantWords } from './shared/variant-words';
import { wordMeans, wordWithExample } from './shared/vocabulary';
import { MarkupKind } from './shared/protocol';

export function hoverAt(file: ProjectFile, offset: number): Hover | undefined {
  const block = blockAt(file, offset);
  const section = block && sectionOfBlock(file, block.index);
  if (block === undefined || section === undefined) return undefined;
  const found = hoverIn(file, section, block, offset - block.offset);
  return found && {
    contents: { kind: MarkupKind.Markdown, value: found.text },
    range: file.lineIndex.rangeOf(block.offset + found.span.start, block.offset + found.span.end),
  };
}

interface Found {
  readonly text: string;
  /** Within the block. */
  readonly span: Span;
}

function hoverIn(file: ProjectFile, section: PlacedSection, block: BlockInFile, at: number): Found | undefined {
  const change = changeHolding(section, block.index - section.firstBlock, at);
  const found = foundIn(file, section, block, at);
  if (change === undefined) return found;
  return { text: paragraphs(changeWords(section, change), found?.text), span: found?.span ?? change.change.node };
}

function foundIn(file: ProjectFile, section: PlacedSection, block: BlockInFile, at: number): Found | undefined {
  const name = nameAt(file, section.environment, block.offset + at);
  if (name !== undefined && name.block === block.index) {
    const text = nameWords(file, section, name);
    if (text !== undefined) return { text, span: { start: name.start - block.offset, end: name.end - block.offset } };
  }
  const head = block.block.head.node;
  if ('keyword' in head && holds(head.keyword, at)) {
    const kind = head.kind === 'part' ? head.part : head.kind;
    const part = section.analysis.formula?.parts.find(p => p.block === block.index - section.firstBlock);
    return { text: paragraphs(wordMeans(kind), headWords(file, section, head.kind, part)), span: head.keyword };
  }
  if (head.kind === 'part' && head.temperature !== undefined && holds(head.temperature, at)) {
    const { formula } = section.analysis;
    const part = formula?.parts.find(p => p.block === block.index - section.firstBlock);
    const water = formula && part && formula.parts[formula.dough ?? -1] === part ? partFacts(formula, part) : undefined;
    return temperatureFound(head.temperature, paragraphs('The temperature wanted after mixing.', water), section);
  }
  const line = linesAt(block.block, at).at(-1);
  const found = line && lineFound(file, section, block, line, at);
  return line && head.kind === 'record' ? recordFound(section, block, line, found) : found;
}

/** A line of a record: its own words, and then the plan that it is set against. */
function recordFound(section: PlacedSection, block: BlockInFile, { node }: Line, found: Found | undefined): Found | undefined {
  const { formula } = section.analysis;
  const compared = formula && recordLineWords(formula, block.index - section.firstBlock, node);
  return compared === undefined ? found : { text: paragraphs(found?.text, compared), span: found?.span ?? node };
}

/** What is known of a block beside what its word means. */
function headWords(file: ProjectFile, section: PlacedSection, kind: Head['kind'], part: ResolvedPart | undefined): string | undefined {
  if (kind === 'formula' || kind === 'dish') return wholeWords(file, section);
  if (kind === 'record') return section.analysis.formula && recordsWords(section.analysis.formula);
  return kind === 'steps' ? wholeTimes(file, section) : part && wordsOfPart(file, section, part);
}

function nameWords(file: ProjectFile, section: PlacedSection, name: Occurrence): string | undefined {
  const { named } = name;
  switch (named.kind) {
    case 'formula': {
      const placed = file.sections.find(s => s.section === named.section);
      if (placed !== undefined) return paragraphs(`**${escaped(name.text)}**`, wholeWords(file, placed));
      return named.section && `**${escaped(name.text)}**, from another file`;
    }
    case 'part': {
      const owner = file.sections.find(s => s.section === named.owner);
      const block = partBlock(named.owner, named.key);
      const part = owner?.analysis.formula?.parts.find(p => p.block === block);
      const kind = part?.kind;
      return owner && part && kind && paragraphs(name.defines ? wordMeans(kind) : undefined, wordsOfPart(file, owner, part));
    }
    case 'ingredient': {
      const line = resolvedLineAt(section, name);
      const { formula } = section.analysis;
      return paragraphs(formula && line && outcomeOf(formula, line), ingredientWords(name.text, section.environment.catalogue, line?.starterHydrationPct));
    }
    case 'file': {
      const use = file.uses.find(u => u.block === named.block);
      const used = use?.uri === undefined ? undefined : file.visible.find(v => v.uri === use.uri);
      if (used === undefined) return undefined;
      const names = used.sections.filter(s => s.section.name !== '' && s.section.kind !== 'use').map(s => `- ${s.section.kind} ${code(s.section.name)}`);
      const shown = names.slice(0, 20);
      return paragraphs('Brings in:', [...shown, ...(names.length > 20 ? [`- and ${names.length - 20} more`] : [])].join('\n'));
    }
  }
}

function wholeWords({ settings }: ProjectFile, placed: PlacedSection): string {
  const { analysis } = placed;
  return paragraphs(formulaWords(analysis), variantWords(placed), factsWords(analysis, settings.allergens), analysis.formula && recordsWords(analysis.formula));
}

function wordsOfPart(file: ProjectFile, placed: PlacedSection, part: ResolvedPart): string {
  const { section, formula } = placed.analysis;
  return paragraphs(partWords(part, formula && whyUnknown({ formula, section })), formula && partFacts(formula, part), formula && buildTimes(file, placed, formula.parts.indexOf(part)));
}

function resolvedLineAt(section: PlacedSection, name: Occurrence): ResolvedLine | undefined {
  for (const part of section.analysis.formula?.parts ?? []) {
    for (const line of part.lines) {
      if (line.source !== undefined && line.namePlace.block === name.block - section.firstBlock) {
        const { start, end } = section.offsetsOf(line.namePlace);
        if (start <= name.start && name.end <= end) return line;
      }
    }
  }
  return undefined;
}

function lineFound(file: ProjectFile, section: PlacedSection, block: BlockInFile, line: Line, at: number): Found | undefined {
  const { node } = line;
  switch (node.kind) {
    case 'ingredient':
      if (holds(node.amount, at)) return amountFound(section, block, node.amount);
      if (node.temperature !== undefined && holds(node.temperature, at)) {
        const { formula } = section.analysis;
        const line = formula?.parts.flatMap(part => part.lines).find(each => each.source === node && each.place.block === block.index - section.firstBlock);
        return temperatureFound(node.temperature, paragraphs('Its temperature when it goes in.', formula && line && outcomeOf(formula, line)), section);
      }
      if (node.role !== undefined && holds(node.role, at)) return { text: `As ${node.role.role}: ${roleMeans(node.role.role)}`, span: node.role };
      if (node.purpose !== undefined && holds(node.purpose, at)) {
        return { text: 'Kept out of the dough’s totals; it still counts for shopping, allergens and cost.', span: node.purpose };
      }
      return undefined;
    case 'flour-share':
      return holds(node.amount, at) ? amountFound(section, block, node.amount) : undefined;
    case 'uses':
      return holds(node, at) ? { text: wordMeans('uses'), span: node } : undefined;
    case 'step':
      return stepFound(file, section, block, node, at);
    case 'property':
      return propertyFound(section, node, at, blockKindOf(block.block.head.node), planLineWords(file, section, { block: block.index - section.firstBlock, start: node.start, end: node.end }));
    case 'makes':
      return holds(node.keyword, at) ? { text: wordWithExample('makes', block.block.head.node.kind === 'dish' ? 'dish' : 'formula'), span: node.keyword } : undefined;
    case 'based-on':
      return holds(node.keyword, at) ? { text: wordWithExample('based on'), span: node.keyword } : undefined;
    case 'swap':
    case 'set':
    case 'add':
    case 'drop':
      return holds(node.keyword, at) ? { text: wordWithExample(node.kind, 'formula'), span: node.keyword } : undefined;
    case 'blank':
    case 'comment':
    case 'bad':
      return undefined;
  }
}

function amountFound(section: PlacedSection, block: BlockInFile, span: Span): Found | undefined {
  const own = block.index - section.firstBlock;
  const find = (part: ResolvedPart): ResolvedLine | undefined => part.lines.find(
    line => line.source !== undefined && line.amountPlace.block === own && line.amountPlace.start === span.start,
  );
  for (const part of section.analysis.formula?.parts ?? []) {
    const line = find(part);
    if (line !== undefined) {
      const text = amountWords(line, part, section.analysis);
      return text === '' ? undefined : { text, span };
    }
  }
  return undefined;
}

function stepFound(file: ProjectFile, section: PlacedSection, block: BlockInFile, node: StepLine, at: number): Found | undefined {
  const { formula } = section.analysis;
  const place = { block: block.index - section.firstBlock, start: node.start, end: node.end };
  const elsewhere = (): string | undefined => formula && elsewhereWords(formula, place);
  const times = (): string => stepTimes(file, section, place);
  if (holds(node.keyword, at)) {
    const { duration, temperature } = node;
    const facts = [
      duration && lengthWords(duration.lowMinutes, duration.highMinutes),
      temperature && temperatureWords(temperature, section),
    ].filter(fact => fact !== undefined);
    return { text: paragraphs(times(), stepMeans(node.step), facts.join(' at '), elsewhere()), span: node.keyword };
  }
  if (node.duration !== undefined && holds(node.duration, at)) {
    const { lowMinutes, highMinutes, vague } = node.duration;
    const text = paragraphs(times(), lengthWords(lowMinutes, highMinutes), vague ? 'A vague length: a plan needs hours.' : undefined, elsewhere());
    return { text, span: node.duration };
  }
  if (node.temperature !== undefined && holds(node.temperature, at)) return temperatureFound(node.temperature, elsewhere(), section);
  for (const detail of node.details) {
    if (!holds(detail, at)) continue;
    switch (detail.kind) {
      case 'until-core': return temperatureFound(detail.temperature, detailMeans('until core'), section, detail);
      case 'until-volume': return { text: detailMeans('until volume'), span: detail };
      case 'lid': return { text: detailMeans(detail.on ? 'lid on' : 'lid off'), span: detail };
      case 'steam': return { text: detailMeans('with steam'), span: detail };
      case 'by': return { text: detailMeans(`by ${detail.how}`), span: detail };
      case 'until': return { text: detailMeans('until'), span: detail };
      case 'add': return { text: detailMeans('add'), span: detail };
      case 'at': return { text: detailMeans('at'), span: detail };
      case 'every':
      case 'times': return { text: detailMeans('every'), span: detail };
      case 'attended': return { text: detailMeans(detail.attended ? 'attended' : 'unattended'), span: detail };
      case 'note': return undefined;
    }
  }
  return undefined;
}

/** @param today what the line comes to on the day of its plan */
function propertyFound(section: PlacedSection, node: PropertyLine, at: number, kind: BlockKind | undefined, today: string): Found | undefined {
  if (holds(node.keyword, at)) return { text: paragraphs(today, wordWithExample(node.key, kind)), span: node.keyword };
  if (node.value.kind === 'temperature' && holds(node.value.temperature, at)) return temperatureFound(node.value.temperature, undefined, section);
  return today === '' ? undefined : { text: today, span: node };
}

function temperatureFound(temperature: Temperature, means: string | undefined, section: PlacedSection, span: Span = temperature): Found | undefined {
  const words = temperatureWords(temperature, section);
  return words === undefined ? undefined : { text: paragraphs(words, means), span };
}

function temperatureWords(temperature: Temperature, section: PlacedSection): string | undefined {
  switch (temperature.kind) {
    case 'degrees': {
      const { lowCelsius, highCelsius } = temperature;
      return lowCelsius === highCelsius ? bothScales(lowCelsius) : `${bothScales(lowCelsius)} to ${bothScales(highCelsius)}`;
    }
    case 'room':
    case 'fridge': {
      const { formula } = section.analysis;
      const celsius = temperature.kind === 'room' ? formula?.roomCelsius : formula?.fridgeCelsius;
      return celsius === null || celsius === undefined
        ? `The formula does not say how warm the ${temperature.kind} is: write ${code(temperature.kind === 'room' ? 'room 22 C' : 'fridge 4 C')} under it.`
        : `${temperature.kind}: ${bothScales(celsius)}`;
    }
  }
}

function lengthWords(lowMinutes: number, highMinutes: number): string {
  return lowMinutes === highMinutes ? minutes(lowMinutes) : `${minutes(lowMinutes)} to ${minutes(highMinutes)}`;
}

// `glaze` opens a block and is a step, `add` is a line and a detail, some roles are properties too: each is looked up as what it is.

function stepMeans(step: StepLine['step']): string {
  return STEP_WORDS.find(word => word.label === step)?.doc ?? '';
}

function detailMeans(label: string): string {
  return DETAIL_WORDS.find(word => word.label === label)?.doc ?? '';
}

function roleMeans(role: Role): string {
  return ROLE_WORDS.find(word => word.label === role)?.doc ?? '';
}

/** The kind of a block as the vocabulary names it; undefined for blocks in which no word stands. */
function blockKindOf({ kind }: Head): BlockKind | undefined {
  return kind === 'use' || kind === 'unknown' || kind === 'none' ? undefined : kind;
}

function holds({ start, end }: Span, at: number): boolean {
  return at >= start && at <= end;
}
