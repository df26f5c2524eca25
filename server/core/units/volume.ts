/** Which household measures a `cup` or `tbsp` means. */
export type MeasureSystem = 'us' | 'metric' | 'imperial';
