/** Food facts: nutrition and its label figures, allergens, cost, names by law, and safety cautions. */
export * from './constants';
export * from './nutrients';
export * from './rounding';
export * from './safety';
export * from './standards';
export { nutritionOf, type Lacking, type Nutrition, type NutritionOptions } from './nutrition';
export { allergensOf, type Allergens } from './allergens';
export { declarationOf, type Declared, type LawList } from './declaration';
export { costOf, costReport, type Cost, type CostReport } from './cost';
export { cautionsFor, LOCAL_RULES, type Caution, type CautionCode } from './cautions';
