/** Formulas with what happens to texts: cuts, swaps, pastes in the wrong place, other line ends, half a character. All from one seed. */

/** Numbers from 0 up to 1, the same for the same seed (mulberry32, public domain). */
export type Random = () => number;

export function randomOf(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export function below(random: Random, most: number): number {
  return Math.floor(random() * most);
}

export function oneOf<T>(random: Random, list: readonly T[]): T {
  const one = list[below(random, list.length)];
  if (one === undefined) throw new Error('nothing to choose from');
  return one;
}

const SCRAPS = [
  'é', '漢', '👩‍🍳', 'e\u0301', '\ud83c', '\udf5e', '\u0000', '\ufeff', '\u2028', '\u00a0', '\t', ' ', '\n', '\r\n', '\r', '\n\n', '\n  ', '\n    ',
  '"', '“', '”', '«', '#', ',', '(', ')', '%', ' %', '-', '½', '0', '-1', '1e309', '1/0', '1 1/2', '2,5', '1,000', '99999999999999999999', ' to ', ' at ',
  ' of ', ' in ', ' for ', ' as ', ' or ', ' on ', ' g', ' kg', ' C', ' F', ' h', ' min', 'all ', 'rest of ', 'half of ', 'until ', 'add ', 'pinch ', 'room', 'fridge', 'overnight',
  '# accept salt-high: the sea', '# accept', 'use "pantry.bake"\n', 'formula "X"\n', 'dish "X"\n', 'plan "X"\n', 'dough\n', 'levain\n', 'total formula\n',
  'steps\n', 'record 2026-03-14\n', 'ingredient "X"\n', '\n  based on "X"\n', '\n  makes 0 loaves of 0 g\n', '\n  0 g water\n', '\n  100 % bread flour\n',
  '\n  all dough\n', '\n  bake 6 loaves of "X"\n', '\n  ready 2026-03-29 01:30 Europe/Lisbon\n', '\n  asleep 22:30 to 05:00\n', '\n  oven holds 0 loaves\n',
];

/** One of the texts after a few accidents. */
export function garbled(random: Random, texts: readonly string[]): string {
  let text = oneOf(random, texts);
  for (let count = 1 + below(random, 6); count > 0; count--) text = accident(random, text, texts);
  return text;
}

function accident(random: Random, text: string, texts: readonly string[]): string {
  const from = below(random, text.length + 1);
  const to = Math.min(text.length, from + below(random, random() < 0.8 ? 30 : 400));
  const place = below(random, text.length + 1);
  switch (below(random, 8)) {
    case 0: return text.slice(0, from) + text.slice(to);
    case 1: return text.slice(0, place) + text.slice(from, to) + text.slice(place);
    case 2: {
      // Two pieces change places.
      const [a, b, c, d] = [from, to, place, Math.min(text.length, place + to - from)].sort((x, y) => x - y) as [number, number, number, number];
      return text.slice(0, a) + text.slice(c, d) + text.slice(b, c) + text.slice(a, b) + text.slice(d);
    }
    case 3: {
      const other = oneOf(random, texts);
      const start = below(random, other.length + 1);
      return text.slice(0, place) + other.slice(start, start + below(random, 300)) + text.slice(place);
    }
    case 4: return random() < 0.5 ? text.replace(/\r\n?|\n/g, '\r\n') : text.replace(/\n/g, () => oneOf(random, ['\n', '\r\n', '\r']));
    case 5: return text.replace(/\d+/g, digits => (random() < 0.1 ? oneOf(random, ['0', '7', '1000000', '0.001', digits + digits, '']) : digits));
    default: return text.slice(0, place) + oneOf(random, SCRAPS) + text.slice(random() < 0.5 ? place : Math.min(text.length, place + below(random, 6)));
  }
}
