import type { Amount, Block, BodyNode, IngredientLine, Line, MakesLine, PartKind, PropertyLine, Role, StepLine, Temperature, UsesLine } from '../../../grammar';
import { isReadable, PREFERMENT_KINDS, quantityMiddle } from '../../../grammar';
import type { Catalogue, Ingredient } from '../ingredients/model';
import { weigh } from '../ingredients/weigh';
import { tinFactorFor, type TinFactor } from '../scaling/tins';
import { volumeToMl, type MeasureSystem } from '../units/volume';
import { blocksInOrder } from '../variant/order';
import { isDoughKind, middleOf, nameKey, type LineDraft, type PartDraft, type Term } from './draft';
import type { Place, PlacedStep, ResolvedFormula, Section, Trouble } from './model';

/** The facts of a formula that need no arithmetic. */
export interface Gathered {
  readonly facts: Omit<ResolvedFormula, 'parts' | 'dough' | 'isTotalFormula' | 'yield' | 'troubles'>;
  readonly parts: readonly PartDraft[];
  readonly troubles: readonly Trouble[];
  /** The tin of `makes 2 tins of 1.8 l`, and what such a tin usually takes. */
  readonly tin: { readonly millilitres: number; readonly usual: TinFactor } | undefined;
}

export interface GatherEnvironment {
  readonly catalogue: Catalogue;
  readonly measures: MeasureSystem;
  /** The formula or dish of that lower-case name, resolved; undefined when there is none, or when it would use itself. */
  readonly formulaNamed?: (name: string) => ResolvedFormula | undefined;
}

/** A ripe culture by the names bakers give it, unless a part of the formula has that name. */
export const STARTER_NAMES = new Set([
  'starter', 'ripe starter', 'active starter', 'sourdough starter', 'ripe sourdough starter', 'mature starter', 'culture', 'ripe culture',
  'sourdough culture', 'seed', 'chef',
]);

/** What adding binary fractions leaves behind. */
const DUST = 1e-9;
const STARTER_HYDRATION_PCT = 100;

/** Parts that go on or into the shaped piece: not taken into a dough, and not missed there. */
export const BESIDE_KINDS: ReadonlySet<PartKind> = new Set<PartKind>(['filling', 'topping', 'glaze', 'wash', 'custard']);

export function gather(section: Section, env: GatherEnvironment): Gathered {
  const troubles: Trouble[] = [];
  const properties = propertiesOf(section);
  const heads = partHeads(section, troubles);
  const scene: Scene = { env, heads, troubles, room: properties.facts.roomCelsius, fridge: properties.facts.fridgeCelsius };
  const parts = heads.map((head, index) => partDraft(head, index, scene));
  return { facts: { ...properties.facts }, parts, troubles, tin: tinOf(properties.facts, heads, env.measures) };
}

function tinOf({ makes, styles }: Gathered['facts'], heads: readonly PartHead[], measures: MeasureSystem): Gathered['tin'] {
  const each = makes?.node.each;
  // A tin of nothing is told by a check.
  if (each?.kind !== 'volume' || quantityMiddle(each.quantity) <= 0) return undefined;
  const usual = tinFactorFor({
    styles: styles.map(({ text }) => text),
    noun: makes?.node.noun?.text ?? '',
    isBatter: heads.findLast((head) => isDoughKind(head.kind))?.kind === 'batter',
  });
  return { millilitres: quantityMiddle(each.quantity) * volumeToMl(each.unit, measures), usual };
}

// --- properties -----------------------------------------------------------------------------------------------------

function propertiesOf(section: Section): Pick<Gathered, 'facts'> {
  const facts: { -readonly [K in keyof Gathered['facts']]: Gathered['facts'][K] } = {
    kind: section.kind === 'dish' ? 'dish' : 'formula',
    name: section.name,
    namePlace: headNamePlace(section),
    styles: [],
    roomCelsius: null,
    fridgeCelsius: null,
    flourCelsius: null,
    frictionCelsius: null,
    altitudeMetres: null,
    ovenLoss: 0,
    benchLoss: 0,
    ovenLossSaid: false,
    makes: undefined,
    serves: null,
    method: [],
    methodPlace: undefined,
    deltas: [],
    lacksBase: false,
    records: [],
  };
  inOrder(section, (block, index) => {
    const head = block.head.node;
    if (head.kind === 'formula' || head.kind === 'dish') {
      for (const { node } of block.lines) {
        const place = placeOf(index, node);
        if (node.kind === 'makes') {
          if (isRead(node)) facts.makes = { node, place };
        }
        else if (node.kind === 'property') property(facts, node, index);
        else if (isDelta(node)) facts.deltas = [...facts.deltas, { node, place }];
      }
    } else if (head.kind === 'steps') {
      facts.method = [...facts.method, ...stepsOf(block.lines, index)];
      facts.methodPlace ??= placeOf(index, block.head);
    } else if (head.kind === 'record') {
      facts.records = [...facts.records, { block: index, place: placeOf(index, head), date: head.date ?? '', lines: block.lines }];
    }
  });
  facts.lacksBase = section.variant === undefined && facts.deltas.some(({ node }) => node.kind === 'based-on');
  return { facts };
}

/** Goes through the blocks of a section, of a variant as its formula written out would have them. */
function inOrder(section: Section, visit: (block: Block, index: number) => void): void {
  for (const index of blocksInOrder(section)) {
    const block = section.blocks[index];
    if (block !== undefined) visit(block, index);
  }
}

function property(facts: { -readonly [K in keyof Gathered['facts']]: Gathered['facts'][K] }, node: PropertyLine, block: number): void {
  const { value } = node;
  switch (value.kind) {
    case 'list':
      if (node.key === 'style') {
        facts.styles = value.items.map((item) => ({ text: item.text, place: placeOf(block, item) }));
      }
      return;
    case 'temperature': {
      const celsius = degrees(value.temperature, null, null);
      if (node.key === 'room') facts.roomCelsius = celsius;
      else if (node.key === 'fridge') facts.fridgeCelsius = celsius;
      else if (node.key === 'flour') facts.flourCelsius = celsius;
      return;
    }
    case 'difference':
      facts.frictionCelsius = value.celsius;
      return;
    case 'altitude':
      facts.altitudeMetres = value.metres;
      return;
    case 'loss': {
      // A loss of everything is a slip of the pen: a check speaks of it, and no dough is made up for it.
      const loss = value.percent.value / 100;
      if (loss >= 1) return;
      if (value.where === 'oven') {
        facts.ovenLoss = loss;
        facts.ovenLossSaid = true;
      } else {
        facts.benchLoss = loss;
      }
      return;
    }
    case 'number':
      if (node.key === 'serves') facts.serves = value.number.value;
      return;
    default:
      return;
  }
}

/** Whether the numbers of a `makes` line can be counted and weighed. One that has another says nothing. */
function isRead({ pieces, each }: MakesLine): boolean {
  return (pieces === undefined || isReadable(pieces)) && (each === undefined || isReadable(each.quantity));
}

function isDelta(node: BodyNode): node is Extract<BodyNode, { kind: 'based-on' | 'swap' | 'set' | 'add' | 'drop' }> {
  return node.kind === 'based-on' || node.kind === 'swap' || node.kind === 'set' || node.kind === 'add' || node.kind === 'drop';
}

function headNamePlace(section: Section): Place {
  const head = section.blocks[0]?.head;
  if (!head) return { block: 0, start: 0, end: 0 };
  const { node } = head;
  return placeOf(0, 'name' in node && node.name ? node.name : 'keyword' in node ? node.keyword : head);
}

// --- parts ----------------------------------------------------------------------------------------------------------

interface PartHead {
  readonly key: string;
  readonly name: string;
  readonly kind: PartKind;
  readonly block: number;
  readonly place: Place;
  readonly temperature: Temperature | undefined;
  readonly lines: readonly Line[];
}

interface Scene {
  readonly env: GatherEnvironment;
  readonly heads: readonly PartHead[];
  readonly troubles: Trouble[];
  readonly room: number | null;
  readonly fridge: number | null;
}

function partHeads(section: Section, troubles: Trouble[]): readonly PartHead[] {
  const heads: PartHead[] = [];
  const seen = new Set<string>();
  inOrder(section, (block, index) => {
    const head = partHead(block, index, section);
    if (!head) return;
    if (seen.has(head.key)) troubles.push({ kind: 'part-twice', place: head.place, name: head.name });
    seen.add(head.key);
    heads.push(head);
  });
  return heads;
}

function partHead(block: Block, index: number, section: Section): PartHead | undefined {
  const node = block.head.node;
  if (node.kind === 'part') {
    const name = node.name?.text ?? node.part;
    return {
      key: nameKey(name),
      name,
      kind: node.part,
      block: index,
      place: placeOf(index, node.name ?? node.keyword),
      temperature: node.temperature,
      lines: block.lines,
    };
  }
  // A dish may list what goes into it right under its head.
  if (node.kind === 'dish' && block.lines.some(({ node: line }) => line.kind === 'ingredient' || line.kind === 'uses')) {
    return {
      key: nameKey(section.name),
      name: section.name,
      kind: 'part',
      block: index,
      place: placeOf(index, node.name ?? node.keyword),
      temperature: undefined,
      lines: block.lines.filter(({ node: line }) => line.kind !== 'property' && line.kind !== 'makes'),
    };
  }
  return undefined;
}

function partDraft(head: PartHead, index: number, scene: Scene): PartDraft {
  const lines: LineDraft[] = [];
  let keepGrams = 0;
  let yields: Term | undefined;
  for (const line of head.lines) {
    const { node } = line;
    if (node.kind === 'ingredient') {
      lines.push(ingredientDraft(node, head, index, scene));
    } else if (node.kind === 'uses') {
      lines.push(usesDraft(node, head, scene));
    } else if (node.kind === 'flour-share') {
      const part = findPart(nameKey(node.part.text), index, scene);
      if (part === undefined) missingPart(node.part.text, placeOf(head.block, node.part), index, scene);
      lines.push({
        ...blankLine(head.block, node, node.part),
        key: `part:${nameKey(node.part.text)}`,
        part,
        role: 'leaven',
        source: node,
        term: part === undefined ? { kind: 'unknown' } : { kind: 'flour-share', share: middleOf(node.amount) / 100 },
      });
    } else if (node.kind === 'property' && node.value.kind === 'amount') {
      const term = plainTerm(node.value.amount);
      if (node.key === 'keep' && term.kind === 'grams') keepGrams = term.grams;
      if (node.key === 'yields') yields = term;
      if (node.key === 'yields' && (term.kind === 'grams' && term.grams <= 0 || term.kind === 'share' && term.share <= 0)) {
        yields = { kind: 'unknown' };
        const message = `Cooked down to nothing, “${head.name}” brings nothing to the dough. Write what it weighs after cooking, or take the line out.`;
        scene.troubles.push({ kind: 'contradiction', place: placeOf(head.block, node), message });
      }
    }
  }
  return {
    key: head.key,
    name: head.name,
    kind: head.kind,
    block: head.block,
    place: head.place,
    lines: withinTheFlour(lines, scene.troubles),
    keepGrams,
    yields,
    desiredCelsius: degrees(head.temperature, scene.room, scene.fridge),
    steps: stepsOf(head.lines, head.block),
  };
}

/** Preferments cannot hold more flour than there is: where their shares say so, none of them has a weight. */
function withinTheFlour(lines: readonly LineDraft[], troubles: Trouble[]): readonly LineDraft[] {
  const shareOf = ({ term }: LineDraft) => (term.kind === 'flour-share' ? term.share : 0);
  const share = lines.reduce((sum, line) => sum + shareOf(line), 0);
  const last = lines.findLast((line) => shareOf(line) > 0);
  if (last === undefined || share <= 1 + DUST) return lines;
  const message = `${Math.round(share * 100)} % of the flour would be in preferments, and there is 100 % of it. Lower this share.`;
  troubles.push({ kind: 'contradiction', place: last.amountPlace, message });
  return lines.map((line) => (line.term.kind === 'flour-share' ? { ...line, term: { kind: 'unknown' } } : line));
}

function ingredientDraft(node: IngredientLine, head: PartHead, index: number, scene: Scene): LineDraft {
  const key = nameKey(node.name.text);
  const { catalogue, measures } = scene.env;
  const part = partTakenIn(node, key, index, scene);
  const base = blankLine(head.block, node, node.name);
  const celsius = degrees(node.temperature, scene.room, scene.fridge);
  const common = { ...base, celsius, purpose: node.purpose?.text, inDough: node.purpose === undefined, source: node };
  if (part !== undefined) {
    const kind = scene.heads[part]?.kind;
    const role: Role = node.role?.role ?? (isPrefermentKind(kind) ? 'leaven' : 'other');
    return { ...common, key: `part:${key}`, part, role, term: amountTerm(node.amount, undefined, measures) };
  }
  if (node.amount.kind === 'all') {
    if (key === head.key) scene.troubles.push({ kind: 'part-cycle', place: base.namePlace, names: [head.name] });
    else missingPart(node.name.text, base.namePlace, index, scene);
    return { ...common, key, role: node.role?.role ?? 'other', term: { kind: 'unknown' } };
  }
  if (STARTER_NAMES.has(key)) {
    const starterHydrationPct = Math.max(0, node.hydrationPct?.value ?? STARTER_HYDRATION_PCT);
    return { ...common, key: 'starter', role: 'leaven', starterHydrationPct, term: weightTerm(node, undefined, base.amountPlace, scene) };
  }
  const ingredient = catalogue.find(node.name.text);
  if (!ingredient) {
    scene.troubles.push({
      kind: 'unknown-ingredient',
      place: base.namePlace,
      name: node.name.text,
      nearest: catalogue.nearest(node.name.text, 3),
    });
  }
  return {
    ...common,
    key: ingredient?.key ?? key,
    ingredient,
    role: node.role?.role ?? ingredient?.role ?? guessedRole(key),
    term: weightTerm(node, ingredient, base.amountPlace, scene),
  };
}

function usesDraft(node: UsesLine, head: PartHead, scene: Scene): LineDraft {
  const uses = scene.env.formulaNamed?.(nameKey(node.formula.text));
  const weight = plainTerm(node.amount);
  return {
    ...blankLine(head.block, node, node.formula),
    key: `formula:${nameKey(node.formula.text)}`,
    role: 'other',
    source: node,
    ...(uses ? { uses } : {}),
    term: weight.kind === 'unknown' && uses ? piecesTerm(node, uses) : weight,
  };
}

/** `2 loaves of "…"` weighs what two of its pieces weigh, baked where the formula says what the oven takes. A slice is nobody's measure. */
function piecesTerm(node: UsesLine, uses: ResolvedFormula): Term {
  const { noun, pieceGrams, bakedPieceGrams } = uses.yield;
  const piece = bakedPieceGrams ?? pieceGrams;
  if (node.amount.kind !== 'count' || piece === null || !node.noun || !isSameNoun(node.noun.text, noun)) return { kind: 'unknown' };
  return { kind: 'grams', grams: middleOf(node.amount) * piece };
}

/** `loaf` and `loaves`, `knot` and `knots`. */
function isSameNoun(a: string, b: string): boolean {
  const stem = (word: string) => nameKey(word).replace(/ves$/, 'f').replace(/(?<=[sxz]|ch|sh)es$/, '').replace(/s$/, '');
  return stem(a) === stem(b);
}

function blankLine(block: number, node: IngredientLine | UsesLine | Extract<BodyNode, { kind: 'flour-share' }>, name: { text: string; start: number; end: number }) {
  return {
    place: placeOf(block, node),
    namePlace: placeOf(block, name),
    amountPlace: placeOf(block, node.amount),
    name: name.text,
    ingredient: undefined,
    part: undefined,
    inDough: true,
    purpose: undefined,
    starterHydrationPct: undefined,
    celsius: null,
  } as const;
}

/** An ingredient that nobody knows still counts as flour when its name says so. */
function guessedRole(key: string): Role {
  return /\bflours?$/.test(key) ? 'flour' : 'other';
}

// --- parts taken in -------------------------------------------------------------------------------------------------

/** A name means a part made earlier; a later part only if no ingredient has that name; never the part itself. */
function partTakenIn(node: IngredientLine, key: string, self: number, scene: Scene): number | undefined {
  const found = findPart(key, self, scene);
  if (found === undefined || found < self || node.amount.kind === 'all') return found;
  return STARTER_NAMES.has(key) || scene.env.catalogue.find(node.name.text) ? undefined : found;
}

/** The nearest part above with that name, else the first below. */
function findPart(key: string, self: number, scene: Scene): number | undefined {
  for (let i = self - 1; i >= 0; i--) if (scene.heads[i]?.key === key) return i;
  for (let i = self + 1; i < scene.heads.length; i++) if (scene.heads[i]?.key === key) return i;
  return undefined;
}

function missingPart(name: string, place: Place, self: number, scene: Scene): void {
  const others = scene.heads.filter((head, i) => i !== self && !isDoughKind(head.kind)).map((head) => head.name);
  scene.troubles.push({ kind: 'part-missing', place, name, nearest: others });
}

function isPrefermentKind(kind: PartKind | undefined): boolean {
  return (PREFERMENT_KINDS as readonly (PartKind | undefined)[]).includes(kind);
}

// --- amounts --------------------------------------------------------------------------------------------------------

function weightTerm(node: IngredientLine, ingredient: Ingredient | undefined, place: Place, scene: Scene): Term {
  const term = amountTerm(node.amount, ingredient, scene.env.measures);
  if (term.kind === 'unknown' && (node.amount.kind === 'volume' || node.amount.kind === 'count') && isReadable(node.amount.quantity)) {
    scene.troubles.push({
      kind: 'needs-a-weight',
      place,
      name: node.name.text,
      unit: node.amount.kind === 'volume' ? node.amount.unit : 'each',
    });
  }
  return term;
}

function amountTerm(amount: Amount, ingredient: Ingredient | undefined, measures: MeasureSystem): Term {
  if (amount.kind === 'all') return { kind: 'all' };
  const counted = 'bracket' in amount && amount.bracket !== undefined ? amount.bracket.quantity : amount.quantity;
  // A number that cannot be read is not nothing.
  if (counted !== undefined && !isReadable(counted)) return { kind: 'unknown' };
  if (amount.kind === 'share' && !amount.bracket) return { kind: 'share', share: middleOf(amount) / 100 };
  const grams = weigh(amount, ingredient, measures);
  return grams === null ? { kind: 'unknown' } : { kind: 'grams', grams };
}

function plainTerm(amount: Amount): Term {
  return amountTerm(amount, undefined, 'us');
}

// --- steps and temperatures -----------------------------------------------------------------------------------------

function stepsOf(lines: readonly Line[], block: number): readonly PlacedStep[] {
  return lines
    .filter((line): line is Line<StepLine> => line.node.kind === 'step')
    .map((line) => ({ place: placeOf(block, line.node), node: line.node, children: stepsOf(line.children, block) }));
}

/** The middle of a temperature in Celsius; `room` and `fridge` are what the formula says they are. */
export function degrees(temperature: Temperature | undefined, room: number | null, fridge: number | null): number | null {
  if (!temperature) return null;
  if (temperature.kind === 'degrees') return (temperature.lowCelsius + temperature.highCelsius) / 2;
  return temperature.kind === 'room' ? room : fridge;
}

export function placeOf(block: number, span: { start: number; end: number }): Place {
  return { block, start: span.start, end: span.end };
}
