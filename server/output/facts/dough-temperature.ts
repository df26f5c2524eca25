/** What water a dough wants, or what dough its water gives, in words. */
import type { ResolvedFormula } from '../../core/formula/model';
import { doughTemperature, YEAST_SAFE_CELSIUS, type DoughTemperature } from '../../core/temperature';
import { celsius, weight } from '../numbers';
import { bothScales, type Fact, type FactBlock } from './words';

/** Nothing when no dough temperature is asked for and none can be foretold. */
export function doughTemperatureFacts(formula: ResolvedFormula): FactBlock | undefined {
  const found = doughTemperature(formula);
  if (found === null) return undefined;
  const facts = [...waterFacts(formula, found), ...iceFacts(found), ...outcomeFacts(found)];
  if (facts.length === 0) return undefined;
  return { title: 'Dough temperature', about: undefined, facts, notes: found.assumptions };
}

/** The temperature to bring the water (or the milk) to. */
function waterFacts(formula: ResolvedFormula, found: DoughTemperature): readonly Fact[] {
  const { desiredCelsius, liquid, waterCelsius, waterHeatBalanceCelsius, expectedCelsius } = found;
  if (desiredCelsius === null || liquid === null) return [];
  const label = expectedCelsius.heatBalance === null && expectedCelsius.factors === null ? `${liquid} to use` : `${liquid} for ${celsius(desiredCelsius)}`;
  const rule = waterCelsius === null ? undefined : waterWords(waterCelsius);
  const balance = waterHeatBalanceCelsius === null ? undefined : waterWords(waterHeatBalanceCelsius);
  if (rule === undefined && balance === undefined) return [{ label, value: `not known: ${whyNotKnown(formula)}` }];
  if (rule === undefined || balance === undefined) return [{ label, value: rule === undefined ? `${balance ?? ''} by heat balance` : `${rule} by the factor rule` }];
  // The rule is as good as its friction: measured, it knows the mixer; guessed, the balance is nearer.
  return [{
    label,
    value: found.method === 'factors'
      ? `${rule} by the factor rule, the friction being measured; heat balance says ${balance}`
      : `${balance} by heat balance; the factor rule, with no friction measured, says ${rule}`,
  }];
}

/** Water is a liquid from 0 to 100 C; an answer beyond that is said for what it is. */
function waterWords(value: number): string {
  if (value < 0) return 'colder than ice water';
  return value > 100 ? 'hotter than boiling' : bothScales(Math.round(value));
}

function whyNotKnown(formula: ResolvedFormula): string {
  if (formula.roomCelsius === null) return 'nothing says how warm the room is (room 22 C)';
  return 'a weight or a temperature of what goes in is not known';
}

function iceFacts({ verdict, iceGrams, liquid }: DoughTemperature): readonly Fact[] {
  switch (verdict) {
    case 'needs ice': {
      if (iceGrams === null) return [];
      return [{ label: 'ice', value: `${weight(iceGrams)} of it as ice` }];
    }
    case 'too hot for yeast':
      return [{ label: 'too hot', value: `above ${bothScales(YEAST_SAFE_CELSIUS.value)} it hurts yeast: warm the flour or the room instead` }];
    case 'cannot be':
      return [{ label: 'cannot be', value: `no ${liquid ?? 'water'} alone brings the dough there: chill or warm the flour, or ask for another temperature` }];
    case 'fine':
    case null:
      return [];
  }
}

/** What comes out with the temperatures that the lines state. */
function outcomeFacts({ expectedCelsius: { factors, heatBalance }, desiredCelsius, liquid, method }: DoughTemperature): readonly Fact[] {
  const rule = factors === null ? undefined : `${bothScales(factors)} by the factor rule`;
  const balance = heatBalance === null ? undefined : `${bothScales(heatBalance)} by heat balance`;
  const ways = (method === 'factors' ? [rule, balance] : [balance, rule]).filter((way) => way !== undefined);
  if (ways.length === 0) return [];
  const wanted = desiredCelsius === null ? '' : `; wanted ${celsius(desiredCelsius)}`;
  return [{ label: 'comes out at', value: `${ways.join(', ')}${liquid === null ? '' : `, with the ${liquid} as written`}${wanted}` }];
}

/** The sentence for a line of water that states its temperature; undefined when the dough cannot be foretold. */
export function outcomeWords(formula: ResolvedFormula): string | undefined {
  const found = doughTemperature(formula);
  const fact = found === null ? undefined : outcomeFacts(found)[0];
  return fact && `The dough comes out at ${fact.value}.`;
}

