/** Ice in place of part of the water, where the water would have to be colder than the tap gives. */
import { ICE_TRADE_FAHRENHEIT } from './constants';
import { iceAsWaterCelsius } from './heat-balance';

/**
 * Ice that replaces part of the water, in the unit of `water`: 0 where the tap is cold enough. More than `water` where no
 * amount of ice would do.
 *
 * Water x (tap - needed) / (tap + 80), the heat balance of ice at 0 C. `needed` may be below freezing: it is then an
 * equivalent temperature. (Ice *added* to all of the water is more: a published example mixes the two up.)
 */
export function iceFor(water: number, tapCelsius: number, neededCelsius: number, iceCelsius = 0): number {
  if (neededCelsius >= tapCelsius) return 0;
  return (water * (tapCelsius - neededCelsius)) / (tapCelsius - iceAsWaterCelsius(iceCelsius));
}

/** The trade's formula in Fahrenheit, as bakery supply tables print it: water x (tap - needed) / (tap + 112). */
export function iceByTradeFormula(water: number, tapFahrenheit: number, neededFahrenheit: number): number {
  if (neededFahrenheit >= tapFahrenheit) return 0;
  return (water * (tapFahrenheit - neededFahrenheit)) / (tapFahrenheit + ICE_TRADE_FAHRENHEIT.value);
}
