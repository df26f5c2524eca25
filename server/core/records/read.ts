/** From the lines of `record` blocks to figures. */
import { quantityMiddle, type Line, type PropertyLine, type Span, type StepLine, type Temperature } from '../../../grammar';
import type { Place, ResolvedFormula } from '../formula/model';
import { toGrams } from '../units/mass';
import type { BakeRecord, Noted, RecordedStep } from './model';

type Written = ResolvedFormula['records'][number];

/** The records of a formula in the order of the text. What is not noted, or cannot be read, is left out. */
export function recordsOf(formula: ResolvedFormula): readonly BakeRecord[] {
  return formula.records.map((written) => recordOf(written, formula));
}

function recordOf({ block, place, date, lines }: Written, formula: ResolvedFormula): BakeRecord {
  const properties = lines.flatMap(({ node }) => (node.kind === 'property' ? [node] : []));
  const find = (key: PropertyLine['key']): PropertyLine | undefined => properties.find((node) => node.key === key);
  const room = degreesIn(find('room'), block);
  const fridge = degreesIn(find('fridge'), block);
  const steps = stepsIn(lines).map((node) => stepOf(node, block, room?.value ?? formula.roomCelsius, fridge?.value ?? formula.fridgeCelsius));
  const baked = steps.reduce<Noted | undefined>((last, { coreCelsius, place }) => (coreCelsius === null ? last : { value: coreCelsius, place }), undefined);
  const note = find('note')?.value;
  return {
    block,
    date,
    place,
    roomCelsius: room,
    fridgeCelsius: fridge,
    doughCelsius: degreesIn(find('dough'), block),
    steps,
    coreCelsius: degreesIn(find('core'), block) ?? baked,
    weighed: weighedIn(find('weighed'), block),
    ph: numberIn(find('ph'), block),
    note: note?.kind === 'text' ? note.text.text : '',
  };
}

/** Steps and those that refine them, in the order of the text. Not recursive: a garbled file may nest deep. */
function stepsIn(lines: readonly Line[]): readonly StepLine[] {
  const waiting = [...lines].reverse();
  const found: StepLine[] = [];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next.node.kind === 'step') found.push(next.node);
    waiting.push(...[...next.children].reverse());
  }
  return found;
}

function stepOf(node: StepLine, block: number, room: number | null, fridge: number | null): RecordedStep {
  let volumePct: number | null = null;
  let coreCelsius: number | null = null;
  for (const detail of node.details) {
    if (detail.kind === 'until-volume') volumePct = detail.percent.value;
    else if (detail.kind === 'until-core') coreCelsius = celsiusOf(detail.temperature, null, null);
  }
  return {
    kind: node.step,
    place: placeOf(block, node),
    minutes: node.duration === undefined ? null : (node.duration.lowMinutes + node.duration.highMinutes) / 2,
    celsius: node.temperature === undefined ? null : celsiusOf(node.temperature, room, fridge),
    volumePct,
    coreCelsius,
  };
}

function degreesIn(node: PropertyLine | undefined, block: number): Noted | undefined {
  const celsius = node?.value.kind === 'temperature' ? celsiusOf(node.value.temperature, null, null) : null;
  return node === undefined || celsius === null ? undefined : { value: celsius, place: placeOf(block, node) };
}

function numberIn(node: PropertyLine | undefined, block: number): Noted | undefined {
  if (node?.value.kind !== 'number') return undefined;
  const { number, high } = node.value;
  return { value: high === undefined ? number.value : (number.value + high.value) / 2, place: placeOf(block, node) };
}

function weighedIn(node: PropertyLine | undefined, block: number): BakeRecord['weighed'] {
  if (node?.value.kind !== 'weighed') return undefined;
  const { mass, pieces, after } = node.value;
  const value = {
    grams: toGrams(mass),
    pieces: pieces === undefined ? null : quantityMiddle(pieces),
    afterMinutes: after === undefined ? null : (after.lowMinutes + after.highMinutes) / 2,
  };
  return { value, place: placeOf(block, node) };
}

function celsiusOf(temperature: Temperature, room: number | null, fridge: number | null): number | null {
  switch (temperature.kind) {
    case 'degrees':
      return (temperature.lowCelsius + temperature.highCelsius) / 2;
    case 'room':
      return room;
    case 'fridge':
      return fridge;
  }
}

function placeOf(block: number, { start, end }: Span): Place {
  return { block, start, end };
}
