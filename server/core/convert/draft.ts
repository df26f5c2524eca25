/** A card as a draft: parts from its headings, lines from its ingredients, steps from its method, and what became of each line. */
import { PREFERMENT_KINDS, type PartKind } from '../../../grammar';
import type { Catalogue } from '../ingredients/model';
import { addedIn } from './added';
import { foldName } from '../ingredients/names';
import { SAME_WEIGHT } from './constants';
import { partHeading } from './headings';
import { readIngredient, type IngredientReading, type KnownPart } from './ingredient';
import { wordsLost } from './kept-words';
import { headLine, ingredientLine, noteLine, quoted } from './lines';
import { readMethod } from './method';
import type { Card, Draft, DraftLine, DraftPart, Outcome, PlacedLine } from './model';
import { bareName } from './names';
import { readYield } from './yields';

/** A part with the lines of the source that it comes from. */
interface Group {
  readonly kind: PartKind;
  readonly name: string | undefined;
  readonly comment: string | undefined;
  readonly heading: PlacedLine | undefined;
  readonly decide: string | undefined;
  readonly lines: PlacedLine[];
}

/** What a bread is called that nobody has named. */
export const UNNAMED = 'Untitled loaf';

/** @param name what it is called, whatever the card says */
export function draftOf(card: Card, catalogue: Catalogue, name?: string): Draft {
  const outcomes: Outcome[] = [];
  const groups = groupsOf(card.lines);
  const readings = groups.map((group, index) => readGroup(group, index, groups, catalogue, outcomes));
  const names = countNames(readings.flat().flatMap(({ reading }) => (reading === undefined ? [] : [reading])));
  const kind = isDish(groups, readings.flat().flatMap(({ reading }) => reading ?? []), catalogue, names) ? 'dish' : 'formula';
  const drafted = groups.map((group, index): DraftPart => ({
    kind: group.kind, name: group.name, comment: group.comment,
    lines: [...(group.decide === undefined ? [] : [{ decide: group.decide }]), ...(readings[index] ?? []).map(({ line }) => line)],
  }));
  const paragraphs = card.lines.filter(({ kind: placed }) => placed === 'step' || placed === 'step-heading');
  const method = readMethod(paragraphs, drafted, groupAbove(card.lines, groups));
  outcomes.push(...method.outcomes);
  const withSteps = drafted.map((part, index) => ({ ...part, lines: [...part.lines, ...(method.ofParts.get(index) ?? [])] }));
  const { parts: taking, left } = takenIn(withSteps, readings, paragraphs);
  const title = card.lines.find(({ kind: placed }) => placed === 'title');
  const head = headOf(card.lines, kind, name === undefined && title === undefined, outcomes, doughOf(readings.flat().flatMap(({ reading }) => reading ?? [])));
  if (title !== undefined) outcomes.push(understood(title));
  return {
    kind, names,
    name: spoken(name ?? title?.text ?? UNNAMED),
    head: name !== undefined && title !== undefined && spoken(title.text) !== spoken(name) ? [...head, { comment: title.text }] : head,
    // A dish has no dough: what goes into it is a part of its own.
    parts: kind === 'formula' ? taking : taking.map((part) => (part.kind === 'dough' ? { ...part, kind: 'part' as const, name: part.name ?? 'all of it' } : part)),
    method: method.lines,
    outcomes: outcomes.map((outcome) => {
      const open = left.find(({ index }) => groups[index]?.heading?.line === outcome.line && groups[index].heading.text === outcome.text);
      return open === undefined ? outcome : { ...outcome, reading: 'doubtful' as const, why: [...outcome.why, open.decide] };
    }).sort((a, b) => a.line - b.line),
  };
}

/** A name stands in quotes, on one line. */
function spoken(name: string): string {
  const plain = quoted(name).slice(1, -1).trim();
  return plain === '' ? UNNAMED : plain.slice(0, 200);
}

function understood({ line, text }: PlacedLine): Outcome {
  return { line, text, reading: 'understood', why: [] };
}

// --- parts ----------------------------------------------------------------------------------------------------------

function groupsOf(lines: readonly PlacedLine[]): readonly Group[] {
  const groups: Group[] = [];
  for (const line of lines) {
    if (line.kind === 'part') {
      const heading = partHeading(line.text, true);
      const comment = heading === undefined ? line.text : heading.comment;
      groups.push({ kind: heading?.kind ?? 'part', name: heading === undefined ? line.text : heading.name, comment, heading: line, decide: heading?.decide, lines: [] });
    } else if (line.kind === 'ingredient' || line.kind === 'words') {
      if (groups.length === 0) groups.push({ kind: 'dough', name: undefined, comment: undefined, heading: undefined, decide: undefined, lines: [] });
      groups.at(-1)?.lines.push(line);
    }
  }
  return namedApart(groups);
}

/** Two parts of one name could not be told apart. */
function namedApart(groups: readonly Group[]): readonly Group[] {
  const taken = new Set<string>();
  return groups.map((group) => {
    const first = group.name ?? group.kind;
    let name = first;
    for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${first} ${number}`;
    taken.add(name.toLowerCase());
    return name === first && group.kind !== 'part' ? group : { ...group, name };
  });
}

interface ReadLine {
  readonly reading: IngredientReading | undefined;
  readonly line: DraftLine;
}

function readGroup(group: Group, index: number, groups: readonly Group[], catalogue: Catalogue, outcomes: Outcome[]): readonly ReadLine[] {
  const parts = groups.flatMap((other, at): readonly KnownPart[] => {
    if (at === index || other.kind === 'dough' || other.kind === 'batter') return [];
    return [{ name: other.name ?? other.kind, aliases: other.name === undefined && other.kind === 'levain' ? ['leaven'] : [] }];
  });
  if (group.heading !== undefined) {
    outcomes.push({ ...understood(group.heading), ...(group.decide !== undefined && { reading: 'doubtful', why: [group.decide] }) });
  }
  const unit = tableUnits(group.lines);
  return group.lines.flatMap((placed): readonly ReadLine[] => {
    if (placed.kind === 'words') {
      outcomes.push({ ...understood(placed), reading: 'text', why: ['the head or the sum of a table'] });
      return [{ reading: undefined, line: { comment: placed.text.replaceAll('\t', ' | ') } }];
    }
    return readLine(placed, unit(placed.text), catalogue, parts, outcomes);
  });
}

/** Under a head such as `Ingredient | g | %` the numbers of a row take their units from it. */
function tableUnits(lines: readonly PlacedLine[]): (row: string) => string {
  const head = lines.find(({ kind, text }) => kind === 'words' && /[|\t]/.test(text) && !/^total/i.test(text));
  const units = (head?.text.split(/[|\t]/) ?? []).map((cell) => (/%|per ?cent/i.test(cell) ? '%' : /\b(?:g|grams?|weight)\b/i.test(cell) ? 'g' : /\bkg\b/i.test(cell) ? 'kg' : /\bml\b/i.test(cell) ? 'ml' : ''));
  return (row) => {
    if (units.every((unit) => unit === '') || !/[|\t]/.test(row)) return row;
    return row.split(/[|\t]/).map((cell, index) => (/^ ?\d[\d.,]* ?$/.test(cell) && units[index] !== undefined ? `${cell.trim()} ${units[index]}` : cell)).join(' | ');
  };
}

function readLine(placed: PlacedLine, text: string, catalogue: Catalogue, parts: readonly KnownPart[], outcomes: Outcome[]): readonly ReadLine[] {
  const added = addedIn(text);
  if (added !== undefined && [added.first, added.second].every((half) => readIngredient(half, catalogue, parts)?.known === true)) {
    return [added.first, added.second].flatMap((half) => readLine({ ...placed, text: half }, half, catalogue, parts, outcomes));
  }
  const shown = placed.text.replaceAll('\t', ' | ');
  const reading = readIngredient(text, catalogue, parts);
  const bake = reading && ingredientLine(reading);
  if (reading === undefined || bake === undefined) {
    const question = reading === undefined ? 'what goes in here, and how much?' : reading.amount === undefined ? 'how much?' : 'how is this line written?';
    outcomes.push({ ...understood(placed), reading: reading === undefined ? 'text' : 'doubtful', why: [question] });
    return [{ reading: reading?.amount === undefined ? undefined : reading, line: { decide: `${question} ${shown}` } }];
  }
  const asked = added === undefined ? reading.decide : [...reading.decide, `is this a line of its own: ${added.second}?`];
  const decide = asked.join(' ') || undefined;
  const unknown = reading.known ? [] : [unknownName(reading)];
  const why = [...asked, ...unknown];
  outcomes.push({ ...understood(placed), reading: why.length > 0 ? 'doubtful' : 'understood', why });
  const more = reading.more.flatMap((amount): readonly ReadLine[] => {
    const also = ingredientLine({ ...reading, amount, notes: [], at: undefined, hydration: undefined });
    return also === undefined ? [] : [{ reading: undefined, line: { bake: also } }];
  });
  const isLost = wordsLost(shown, [bake, decide ?? '', ...reading.more].join(' ')).length > 0;
  return [{ reading, line: { bake, ...(isLost && { comment: shown }), ...(decide !== undefined && { decide }) } }, ...more];
}

function unknownName({ name, nearest }: IngredientReading): string {
  const like = nearest.length === 0 ? '' : ` Is it ${nearest.slice(0, 2).join(' or ')}?`;
  return `nobody here knows what ${name} is.${like}`;
}

// --- how the parts hang together ------------------------------------------------------------------------------------

interface TakenIn {
  readonly parts: readonly DraftPart[];
  /** Parts of which nobody says where they go. */
  readonly left: readonly { readonly index: number; readonly decide: string }[];
}

/** A preferment, a soaker or a scald that no line takes in: the dough does, where the method says so. */
function takenIn(parts: readonly DraftPart[], readings: readonly (readonly ReadLine[])[], method: readonly PlacedLine[]): TakenIn {
  const doughs = parts.filter(({ kind }) => kind === 'dough' || kind === 'batter');
  const [first] = doughs;
  const words = ` ${method.map(({ text }) => foldName(text)).join(' ')} `;
  const added: DraftLine[] = [];
  const left: { index: number; decide: string }[] = [];
  const second = doughs[1];
  // Of a first and a second dough nobody says that one goes into the other.
  const isFirstAndSecond = /\bfirst\b/i.test(first?.comment ?? '') && /\b(?:second|final)\b/i.test(second?.comment ?? '');
  const ofFirst = isFirstAndSecond ? 'does all of the dough above go in here? Then make it a sponge, and write: all sponge' : undefined;
  parts.forEach(({ kind, name }, index) => {
    const feeds = (PREFERMENT_KINDS as readonly PartKind[]).includes(kind) || kind === 'soaker' || kind === 'scald';
    const called = name ?? kind;
    if (!feeds || first === undefined || readings.flat().some(({ reading }) => reading?.isPart === true && reading.name === called)) return;
    const bake = `all ${/^[\p{L}' -]+$/u.test(called) ? called : quoted(called)}`;
    if (words.includes(` ${bareName(called)} `) && doughs.length === 1) {
      added.push({ bake });
      return;
    }
    const decide = `does all of the ${called} go into this dough? Then write a line: ${bake}`;
    added.push({ decide });
    left.push({ index, decide });
  });
  if (ofFirst !== undefined) left.push({ index: parts.findIndex((part) => part === second), decide: ofFirst });
  return {
    left,
    parts: parts.map((part) => ({
      ...part, lines: [...part.lines, ...(part === first ? added : []), ...(part === second && ofFirst !== undefined ? [{ decide: ofFirst }] : [])],
    })),
  };
}

/** The part that a paragraph of the method stands under, where the ingredients of another part follow. */
function groupAbove(lines: readonly PlacedLine[], groups: readonly Group[]): (paragraph: PlacedLine) => number | undefined {
  const above = new Map<PlacedLine, number>();
  let current: number | undefined;
  for (const line of lines) {
    const at = groups.findIndex(({ heading, lines: own }) => heading === line || own.includes(line));
    if (at >= 0) current = at;
    else if (line.kind === 'step' && current !== undefined && current < groups.length - 1) above.set(line, current);
  }
  return (paragraph) => above.get(paragraph);
}

function countNames(readings: readonly IngredientReading[]): Draft['names'] {
  return { all: readings.length, known: readings.filter(({ known }) => known).length };
}

/** Without any flour, and with most of it known, it is a dish. */
function isDish(groups: readonly Group[], readings: readonly IngredientReading[], catalogue: Catalogue, { known, all }: Draft['names']): boolean {
  const hasFlour = readings.some(({ name, isPart }) => isPart || catalogue.find(name)?.role === 'flour' || /\b(?:flours?|meal|dough)\b/i.test(name));
  return all >= 3 && known / all >= 0.6 && !hasFlour && !groups.some(({ kind }) => (PREFERMENT_KINDS as readonly PartKind[]).includes(kind));
}

/** What the lines say of the weight of it all. */
interface Dough {
  /** All of it, where every line has a weight. */
  readonly grams: number | undefined;
  /** Some line says how much, in more than shares. */
  readonly isMeasured: boolean;
}

function doughOf(readings: readonly IngredientReading[]): Dough {
  const own = readings.filter(({ isPart, purpose }) => !isPart && purpose === undefined);
  const grams = own.map(({ amount = '', weight }) => {
    const [, number = '', unit = ''] = /^(\d+(?:\.\d+)?) (g|kg)$/.exec(weight ?? amount.replace(/^.*\((.*)\)$/, '$1')) ?? [];
    return unit === '' ? undefined : Number(number) * (unit === 'kg' ? 1000 : 1);
  });
  const sum = grams.reduce<number | undefined>((total, each) => (total === undefined || each === undefined ? undefined : total + each), 0);
  return { grams: own.length === 0 ? undefined : sum, isMeasured: own.some(({ amount }) => amount !== undefined && !amount.endsWith('%')) };
}

/** What one piece weighs is the dough of it, and not the baked loaf. */
function isOfDough(makes: string, each: string, { grams }: Dough): boolean {
  const pieces = Number(/^\d+/.exec(makes)?.[0] ?? Number.NaN);
  const [, number = '', unit = ''] = /^(\d+(?:\.\d+)?) (g|kg)$/.exec(each) ?? [];
  const all = pieces * Number(number) * (unit === 'kg' ? 1000 : 1);
  return grams !== undefined && all > 0 && Math.abs(all - grams) <= SAME_WEIGHT.value * grams;
}

// --- the head -------------------------------------------------------------------------------------------------------

function headOf(lines: readonly PlacedLine[], kind: Draft['kind'], isUnnamed: boolean, outcomes: Outcome[], dough: Dough): readonly DraftLine[] {
  const head: DraftLine[] = isUnnamed ? [{ decide: 'what is it called?' }] : [];
  const said = new Set<string>();
  // How much it makes comes first, wherever the card says it.
  for (const placed of [...lines].sort((a, b) => Number(b.kind === 'yield') - Number(a.kind === 'yield'))) {
    const { text } = placed;
    switch (placed.kind) {
      case 'yield': head.push(...yieldLines(placed, kind, said, outcomes, dough)); break;
      case 'source': case 'author': {
        const isFirst = !said.has(placed.kind);
        said.add(placed.kind);
        head.push(isFirst ? headLine(kind, `${placed.kind} ${quoted(text)}`, text) : { comment: `${placed.kind}: ${text}` });
        outcomes.push(understood(placed));
        break;
      }
      case 'note':
        head.push(noteLine(text));
        outcomes.push({ ...understood(placed), reading: 'text', why: ['kept as a note'] });
        break;
      case 'fact':
        head.push({ comment: text });
        outcomes.push({ ...understood(placed), reading: 'text', why: ['kept as a comment'] });
        break;
      case 'marker': outcomes.push(understood(placed)); break;
      case 'title': case 'part': case 'ingredient': case 'words': case 'step': case 'step-heading': break;
    }
  }
  return head;
}

function yieldLines(placed: PlacedLine, kind: Draft['kind'], said: Set<string>, outcomes: Outcome[], dough: Dough): readonly DraftLine[] {
  const { makes, serves, each, note } = readYield(placed.text);
  const key = serves !== undefined && kind === 'dish' ? 'serves' : 'makes';
  if (said.has(key) || (makes === undefined && (serves === undefined || kind === 'formula'))) {
    outcomes.push({ ...understood(placed), reading: 'text', why: ['kept as a note: no number of pieces was read in it'] });
    return [noteLine(placed.text)];
  }
  said.add(key);
  // Where all lines are shares, the weight is what the dough is made to.
  const isSize = makes !== undefined && each !== undefined && (!dough.isMeasured || isOfDough(makes, each, dough));
  const asks = makes !== undefined && each !== undefined && !isSize;
  const bake = key === 'serves' ? `serves ${serves ?? ''}` : `makes ${makes ?? ''}${isSize ? ` of ${each}` : ''}`;
  const line = headLine(kind, bake, placed.text);
  const decide = asks ? `is ${each ?? ''} the dough of one, or what one weighs baked? For dough write: ${bake} of ${each ?? ''}` : undefined;
  outcomes.push({ ...understood(placed), ...(decide !== undefined && { reading: 'doubtful', why: [decide] }), ...(line.bake === undefined && { reading: 'text', why: ['kept as a comment'] }) });
  return [{ ...line, ...(decide !== undefined && { decide }) }, ...(note === undefined || line.bake === undefined ? [] : [noteLine(note)])];
}
