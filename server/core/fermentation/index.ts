/** Fermentation: rates of published models, time of equal fermentation, ripening, and what a formula says of its own. */
export * from './constants';
export * from './growth';
export * from './path';
export * from './factors';
export * from './ripening';
export * from './equal';
export { cultureOf, freshYeastPctOf, organismOf, type Culture } from './culture';
export { hoursOf, journeyOf, type Journey, type Leg } from './journey';
export {
  bulkHoursAt, bulkReport, levainReport, proofReport, retardReport, type BulkReport, type LevainReport, type RetardReport, type Ripeness,
} from './reports';
