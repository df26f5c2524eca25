/** Bake text as blocks and as the catalogue that its `ingredient` blocks make. */
import { parse, type Block } from '../../../grammar';
import { builtInCatalogue, extend } from '../../../server/core/ingredients/catalogue';
import type { Catalogue } from '../../../server/core/ingredients/model';
import type { MeasureSystem } from '../../../server/core/units/volume';

export const blocksOf = (text: string): readonly Block[] => parse(text).blocks.map(({ block }) => block);

export const catalogueOf = (text: string, measures?: MeasureSystem): Catalogue => extend(builtInCatalogue, blocksOf(text), measures);
