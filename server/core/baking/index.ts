/** Baking: loss, pans, boiling at a height, cores and cooling, and what is usual for a formula's class. */
export * from './constants';
export * from './loss';
export * from './pans';
export * from './heat';
export { bakeClassOf, bakingReport, type BakingReport } from './report';
