// How many lines a second are parsed, resolved and checked, without any protocol.
import { createRequire } from 'node:module';
import { ms, at, sort } from './numbers.mjs';
import { formulas } from './texts.mjs';

const ENTRY = `
  export { parse, format } from './grammar';
  export { sectionsOf } from './server/core/formula/sections';
  export { analyse } from './server/core/analyse';
  export { builtInCatalogue } from './server/core/ingredients/catalogue';`;

export async function throughput({ bundle, row }) {
  const { parse, format, sectionsOf, analyse, builtInCatalogue } = createRequire(import.meta.url)(await bundle('core', ENTRY));
  const text = formulas(20_000);
  const lines = text.split('\n').length;
  const median = (work) => at(sort(Array.from({ length: 5 }, () => {
    const started = performance.now();
    work();
    return performance.now() - started;
  })), 0.5);
  const per = (time) => `${Math.round(lines / time)} lines/ms`;
  const blocks = parse(text).blocks.map(({ block }) => block);
  const environment = { catalogue: builtInCatalogue, formulas: new Map(), measures: 'us' };
  row(`parse ${lines} lines`, per(median(() => parse(text))));
  row(`resolve and check ${lines} lines`, per(median(() => sectionsOf(blocks).forEach(({ section }) => analyse(section, environment)))));
  row('format 5,000 lines', ms(median(() => format(formulas(5_000)))));
}
