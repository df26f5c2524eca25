import type { StepDetail } from '../../../../grammar';
import { nameKey } from '../../formula/draft';
import type { Place, PlacedStep, ResolvedFormula, ResolvedLine } from '../../formula/model';
import { linesNamed } from '../../formula/named';
import { toGrams } from '../../units/mass';
import type { CheckContext, Fix } from '../check';
import { defineCheck, type Found } from '../define';
import { placeOf } from '../walk';
import { grams, named, percent, writtenName } from '../words';

type Add = Extract<StepDetail, { readonly kind: 'add' }>;

/** What a step adds. */
interface Addition {
  readonly place: Place;
  readonly detail: Add;
}

/** Portions within this of the whole are the whole: three times 33 %. */
const TOLERANCE = 0.011;

export const portionsNotWhole = defineCheck({
  code: 'portions-not-whole',
  severity: 'error',
  title: 'Portions that do not come to the whole',
  why:
    'What the steps add of an ingredient must be all of it, no more and no less. Otherwise some of it stays on the ' +
    'bench, or a step calls for something that is already in the dough.',
  source: 'definition of the language',
  trips: `formula "Walnut loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast
  200 g     walnuts

steps
  mix         8 min
  bulk        3 h at 24 C
    fold      at 30 min, «add half of walnuts»
`,
  passes: `formula "Walnut loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast
  200 g     walnuts

steps
  mix         8 min
  bulk        3 h at 24 C
    fold      at 30 min, add half of walnuts
    fold      at 60 min, add rest of walnuts
`,
  fixed: `formula "Walnut loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast
  200 g     walnuts

steps
  mix         8 min
  bulk        3 h at 24 C
    fold      at 30 min, add walnuts
`,
  find: (context) => {
    const { formula } = context;
    if (formula === undefined || formula.lacksBase) {
      return [];
    }
    const found: Found[] = [];
    const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
    const everything = formula.parts.flatMap((part) => part.lines);
    found.push(...judge(additionsIn(formula.method), dough?.lines ?? everything, context, formula));
    for (const part of formula.parts) {
      found.push(...judge(additionsIn(part.steps), part.lines, context, formula));
    }
    return found;
  },
});

function additionsIn(steps: readonly PlacedStep[]): readonly Addition[] {
  const found: Addition[] = [];
  const waiting = [...steps].reverse();
  for (let step = waiting.pop(); step !== undefined; step = waiting.pop()) {
    for (const detail of step.node.details) {
      if (detail.kind === 'add') {
        found.push({ place: placeOf(step.place.block, detail), detail });
      }
    }
    waiting.push(...[...step.children].reverse());
  }
  return found;
}

function judge(
  additions: readonly Addition[],
  lines: readonly ResolvedLine[],
  context: CheckContext,
  formula: ResolvedFormula,
): readonly Found[] {
  const found: Found[] = [];
  const byTarget = new Map<string, { lines: readonly ResolvedLine[]; additions: Addition[] }>();
  for (const addition of additions) {
    const name = addition.detail.name.text;
    const matching = linesNamed(name, lines, formula.parts, context.catalogue.find(name)?.key);
    const [first] = matching;
    if (first !== undefined) {
      const entry = byTarget.get(first.key) ?? { lines: matching, additions: [] };
      entry.additions.push(addition);
      byTarget.set(first.key, entry);
    } else if (!isElsewhere(name, context, formula)) {
      found.push({
        place: addition.place,
        message:
          `This step adds ${named(name)}, but nothing of that name is in the dough. Add a line for it, or correct the ` +
          'name.',
      });
    }
  }
  for (const target of byTarget.values()) {
    found.push(...judgeOne(target.additions, target.lines));
  }
  return found;
}

/** Follows what is added of one ingredient from the first step to the last. */
function judgeOne(additions: readonly Addition[], lines: readonly ResolvedLine[]): readonly Found[] {
  const whole = lines.every((line) => line.grams !== null) ? lines.reduce((sum, line) => sum + (line.grams ?? 0), 0) : null;
  let added = 0;
  for (const { place, detail } of additions) {
    const name = named(detail.name.text);
    const portion = portionOf(detail, whole);
    if (portion === 'unknown') {
      return [];
    }
    const nothingLeft = added >= 1 - TOLERANCE;
    if (nothingLeft) {
      const message = `All of ${name} has been added before, so nothing is left for this step. Take it out here, or add less earlier.`;
      return [{ place, message }];
    }
    const share = portion === 'rest' ? 1 - added : portion;
    if (added + share > 1 + TOLERANCE) {
      const over = whole === null ? percent((added + share) * 100) : `${grams((added + share) * whole)} of ${grams(whole)}`;
      return [
        {
          place,
          message: `With this step ${over} of ${name} would be added, more than there is. ` + 'Add less, or write `rest of`.',
          fixes: addTheRest(place, detail),
        },
      ];
    }
    added += share;
  }
  const last = additions.at(-1);
  if (last === undefined || added >= 1 - TOLERANCE) {
    return [];
  }
  const missing = whole === null ? percent((1 - added) * 100) : grams((1 - added) * whole);
  return [
    {
      place: last.place,
      message:
        `The steps add ${percent(added * 100)} of ${named(last.detail.name.text)}; ${missing} of it is never added. ` +
        `Say where the rest goes, like \`add rest of ${writtenName(last.detail.name.text)}\`.`,
      fixes: additions.length === 1 ? addAll(last.place, last.detail) : addTheRest(last.place, last.detail),
    },
  ];
}

/** 0 to 1 of the whole; `unknown` where a weight stands against an unknown whole. */
function portionOf({ portion }: Add, whole: number | null): number | 'rest' | 'unknown' {
  switch (portion.kind) {
    case 'whole':
      return 1;
    case 'rest':
      return 'rest';
    case 'fraction':
      return portion.fraction;
    case 'amount': {
      const { amount } = portion;
      if (amount.kind === 'share') {
        return amount.quantity.low.value / 100;
      }
      const mass = amount.kind === 'mass' ? amount : 'bracket' in amount ? amount.bracket : undefined;
      if (mass === undefined || whole === null || whole <= 0) {
        return 'unknown';
      }
      return toGrams(mass) / whole;
    }
  }
}

function addAll(place: Place, detail: Add): readonly Fix[] {
  return [{ title: `Add all of ${named(detail.name.text)} here`, certain: false, edits: [upToName(place, detail, 'add ')] }];
}

function addTheRest(place: Place, detail: Add): readonly Fix[] {
  const title = `Add the rest of ${named(detail.name.text)} here`;
  return [{ title, certain: false, edits: [upToName(place, detail, 'add rest of ')] }];
}

/** Writes anew what stands before the name. */
function upToName(place: Place, { name }: Add, newText: string): Fix['edits'][number] {
  return { place: { block: place.block, start: place.start, end: name.start }, newText };
}

/** A filling or glaze that no part takes in, or a line of another part: nothing to weigh it against, and no mistake. */
function isElsewhere(name: string, context: CheckContext, formula: ResolvedFormula): boolean {
  return (
    formula.parts.some((part) => part.key === nameKey(name)) ||
    linesNamed(name, formula.parts.flatMap((part) => part.lines), formula.parts, context.catalogue.find(name)?.key).length > 0
  );
}
