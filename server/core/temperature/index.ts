/** Dough temperature: the trade's factor method, the heat balance, ice, and what a formula says of all of them. */
export * from './constants';
export * from './factor-method';
export * from './heat-balance';
export * from './ice';
export * from './relaxation';
export { mixingOf, type Mixing } from './mixing';
export { celsiusOfPart, startCelsius } from './bodies';
export { doughTemperature, type DoughTemperature, type WaterVerdict } from './dough-temperature';
