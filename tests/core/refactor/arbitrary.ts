/** Random formulas with preferments of every kind, as a dough and as a total formula. */
import fc from 'fast-check';

export const preferments = fc.record({
  asTotal: fc.boolean(),
  inShares: fc.boolean(),
  makes: fc.boolean(),
  levain: fc.constantFrom('none', 'grams', 'shares'),
  poolish: fc.constantFrom('none', 'grams', 'shares'),
  soaker: fc.boolean(),
  straight: fc.constantFrom('instant yeast', 'fresh yeast', 'starter', 'starter at 60 % hydration'),
  flour: fc.integer({ min: 300, max: 4000 }),
  rye: fc.integer({ min: 0, max: 30 }),
  water: fc.integer({ min: 62, max: 85 }),
  leftOver: fc.boolean(),
  comment: fc.boolean(),
  spaced: fc.boolean(),
  lineEnd: fc.constantFrom('\n', '\r\n'),
}).map(({ asTotal, inShares, makes, levain, poolish, soaker, straight, flour, rye, water, leftOver, comment, spaced, lineEnd }) => {
  const amount = (percent: number): string => (inShares ? `${percent} %` : `${Math.round(flour * percent) / 100} g`).padEnd(spaced ? 10 : 1);
  const note = comment ? '  # as the mill sends it' : '';
  const part = (kind: 'grams' | 'shares', of: number) => (percent: number): string => (kind === 'shares' ? `${percent} %` : `${Math.round(of * percent) / 100} g`).padEnd(10);
  const inside = Math.round(flour / 10);
  const isElastic = (kind: string): boolean => kind === 'shares';
  const blocks: string[] = ['# a trial', 'formula "Random"'];
  const sized = makes || inShares;
  const whole = Math.round(flour * (1 + (water + 3) / 100));
  if (sized) blocks.push(`  makes ${inShares ? `2 loaves of ${whole} g` : '2 loaves'}${note}`);
  if (levain !== 'none') {
    const of = part(levain, inside);
    blocks.push('', 'levain', `  ${of(100)}dark rye flour${note}`, `  ${of(80)}water at 28 C`, `  ${of(20)}starter`, '  ripen     8 h at 24 C');
  }
  if (poolish !== 'none') {
    const of = part(poolish, inside);
    blocks.push('', '# the evening before', 'poolish', `  ${of(100)}bread flour`, `  ${of(100)}water`, `  ${of(0.1)}instant yeast`, '  ripen     12 h at 21 C');
  }
  if (soaker) blocks.push('', 'soaker "seeds"', '  60 g      flax seeds', '  120 g     water', '  rest      1 h');
  const taking = (name: string, kind: string): string[] => {
    if (kind === 'none') return [];
    if (asTotal) return [`  10 % of flour in ${name}${note}`];
    if (isElastic(kind)) return [`  ${inShares ? amount(20) : `${Math.round(flour / 5)} g `}${name}${note}`];
    return [leftOver ? `  ${Math.round(inside * 1.5)} g ${name}` : `  all       ${name}${note}`];
  };
  blocks.push(
    ...(spaced ? [''] : []), asTotal ? 'total formula at 25 C' : 'dough at 25 C',
    `  ${amount(100 - rye)} bread flour, sifted${note}`,
    ...(rye > 0 ? [`  ${amount(rye)} dark rye flour`] : []),
    `  ${amount(water)} water${note}`,
    ...taking('levain', levain), ...taking('poolish', poolish),
    ...(soaker ? ['  all       seeds', ...(asTotal ? ['  60 g      flax seeds'] : [])] : []),
    `  ${amount(2)} salt`,
    `  ${amount(straight.startsWith('starter') ? 20 : 0.8)} ${straight}`,
    ...(poolish === 'none' || straight === 'instant yeast' ? [] : [`  ${amount(0.2)} instant yeast${note}`]),
    `  ${amount(3)} sugar`,
    '', 'steps', '  mix       8 min', '  bulk      3 h at 24 C', '    fold    at 30 min', '    fold    at 60 min', '',
  );
  return blocks.join(lineEnd);
});
