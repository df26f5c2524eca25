// Texts to measure with: formulas like those a bakery keeps, as many as asked for, no two the same.

/** About `lines` lines of formulas (26 lines each, as long as a real one). */
export function formulas(lines) {
  const count = Math.max(1, Math.round(lines / 26));
  return Array.from({ length: count }, (_, i) => formula(i)).join('\n');
}

function formula(i) {
  return `formula "Loaf ${i}"
  makes     ${2 + (i % 5)} loaves of ${800 + (i % 9) * 25} g
  style     hearth
  room      22 C
  loses     14 % in the oven

levain
  100 %     bread flour
  ${80 + (i % 40)} %      water at 28 C
  20 %      starter
  ripen     6 to 8 h at 25 C

total formula at 25 C
  80 %      bread flour
  20 %      whole wheat flour
  ${65 + (i % 12)} %      water
  2 %       salt
  ${10 + (i % 8)} % of flour in levain

steps
  mix       8 min, by hand
  bulk      4 h at 24 C
    fold    at 30 min
    fold    at 60 min
  shape     10 min
  preheat   60 min at 240 C
  bake      40 min at 235 C, until core 97 C
`;
}
