/** Temperatures of a step as written, with the other scale beside them. */
import type { Temperature } from '../../../grammar';
import type { PlacedStep, ResolvedFormula } from '../../core/formula/model';
import { fahrenheit } from '../../core/units/temperature';
import { decimals } from '../numbers';

/** Something to put into the text of a block, and where. */
export interface Insertion {
  readonly at: number;
  readonly text: string;
}

/** After each temperature of a step ` (465 F)`, or ` (240 C)` where Fahrenheit is written; after `room` and `fridge` what they are. */
export function otherScales({ node }: PlacedStep, formula: ResolvedFormula): readonly Insertion[] {
  const cores = node.details.flatMap((detail) => (detail.kind === 'until-core' ? [detail.temperature] : []));
  const written = node.temperature === undefined ? cores : [node.temperature, ...cores];
  return written.flatMap((temperature): readonly Insertion[] => {
    const text = inBrackets(temperature, formula);
    return text === undefined ? [] : [{ at: temperature.end, text: ` (${text})` }];
  });
}

function inBrackets(temperature: Temperature, formula: ResolvedFormula): string | undefined {
  switch (temperature.kind) {
    case 'degrees': {
      const { lowCelsius, highCelsius, unit } = temperature;
      const shown = (celsius: number): string => (unit === 'C' ? dial(fahrenheit(celsius), celsius) : dial(celsius, celsius));
      const [low, high] = [shown(lowCelsius), shown(highCelsius)];
      return `${low === high ? low : `${low} to ${high}`} ${unit === 'C' ? 'F' : 'C'}`;
    }
    case 'room':
    case 'fridge': {
      const celsius = temperature.kind === 'room' ? formula.roomCelsius : formula.fridgeCelsius;
      return celsius === null ? undefined : `${decimals(celsius, 1)} C, ${decimals(fahrenheit(celsius), 0)} F`;
    }
  }
}

/** To the 5 degrees of an oven's dial where it is that hot, else to the degree. */
function dial(value: number, celsius: number): string {
  return decimals(celsius >= 120 ? Math.round(value / 5) * 5 : value, 0);
}
