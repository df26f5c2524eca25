/** Records of bakes: read, set against the formula, and the pace of a kitchen fitted to them. */
export type { BakeRecord, ComparedRecord, Comparison, FittedPace, PaceFit, RecordedStep } from './model';
export { recordsOf } from './read';
export { compareRecord, comparisonsAt, conditionsOf, lossPctOf } from './compare';
export { fitPace } from './fit';
