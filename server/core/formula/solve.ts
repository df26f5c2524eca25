/**
 * Finds the weight of every line.
 *
 * Each part has one unknown, its base: the flour weighed into it (all the flour in a total formula; the whole in a part
 * with no flour). Lines are constants or linear in that base. A part whose own grams fix its base is *set* and makes what
 * it makes; any other is *elastic* and is built to what is called for, the dough by `makes`. Parts form a graph with no
 * cycle, so set parts are weighed from the first made to the last, and elastic ones from the dough back: each step solves
 * one linear equation exactly.
 *
 * Inside, an unknown weight is NaN, which arithmetic carries along by itself; `resolve` turns it into null.
 */
import { quantityMiddle } from '../../../grammar';
import { toGrams } from '../units/mass';
import { isDoughKind, isFlourLine, starterFlourShare, type LineDraft, type PartDraft } from './draft';
import type { Gathered } from './gather';
import { BESIDE_KINDS } from './gather';
import { makingOrder } from './order';
import type { Place, Trouble } from './model';

/** Flours in shares may miss 100 % by this much before it is a mistake: three times 33.3 % is fine. */
export const WHOLE_TOLERANCE = 0.0015;
const AGREE_TOLERANCE = 0.02;
/** What adding binary fractions leaves behind. */
const DUST = 1e-9;
const MOST_EVALUATIONS = 20_000;

export interface Solution {
  /** Per part: what 100 % is, g. */
  readonly base: readonly number[];
  /** Per part: all lines in the dough, g (for a total formula: the whole list). */
  readonly weighed: readonly number[];
  /** Per part: what it gives after cooking, g. */
  readonly made: readonly number[];
  /** Per part: called for by other parts, g. */
  readonly calledFor: readonly number[];
  /** Per part and line, g. */
  readonly grams: readonly (readonly number[])[];
  /** Index of the part that ends in the oven. */
  readonly dough: number | undefined;
  /** Nothing but the tin that it is for says how much dough there is. */
  readonly sizedByTin: boolean;
  /** Parts, each after those it takes in. */
  readonly producersFirst: readonly number[];
  readonly troubles: readonly Trouble[];
}

export function solve({ facts, parts, troubles: earlier, tin }: Gathered): Solution {
  const solver = new Solver(parts, earlier);
  return solver.run(facts, tin);
}

/** Holds the state of one run; thrown away after it. */
class Solver {
  private readonly base: number[];
  private readonly made: number[];
  private readonly calledFor: number[];
  private readonly troubles: Trouble[];
  private readonly consumers: { readonly part: number; readonly line: number }[][];
  private readonly isSet: boolean[];
  private sizedByTin = false;
  private readonly inCycle = new Set<number>();
  private readonly flourShares = new Map<number, number>();
  private evaluations = 0;

  constructor(
    private readonly parts: readonly PartDraft[],
    earlier: readonly Trouble[],
  ) {
    this.base = parts.map(() => NaN);
    this.made = parts.map(() => NaN);
    this.calledFor = parts.map(() => 0);
    this.troubles = [...earlier];
    this.consumers = parts.map(() => []);
    parts.forEach((part, p) => part.lines.forEach((line, l) => {
      if (line.part !== undefined) this.consumers[line.part]?.push({ part: p, line: l });
    }));
    this.isSet = parts.map((_, p) => !Number.isNaN(this.ownBase(p)));
  }

  run(facts: Gathered['facts'], tin: Gathered['tin']): Solution {
    const order = this.producersFirst();
    const dough = this.parts.findLastIndex((part) => isDoughKind(part.kind));
    for (const p of order) {
      if (!this.isSet[p] || this.inCycle.has(p)) continue;
      this.base[p] = this.ownBase(p);
      this.reportFlour(p);
      // A total formula's weight needs its preferments' sizes: weighed on the way back.
      if (!this.isTotal(p)) this.made[p] = this.yieldOf(p, this.weigh(p, this.baseOf(p)));
    }
    for (const p of [...order].reverse()) {
      if (this.inCycle.has(p)) continue;
      this.callFor(p);
      if (p === dough) this.sizeDough(p, facts, tin);
      else if (!this.isSet[p]) this.sizeElastic(p, facts.kind);
      this.reportNoFlour(p);
      this.reportShort(p);
    }
    if (dough >= 0) this.compareWithMakes(dough, facts);
    this.reportUnused(dough, facts);
    return {
      base: this.base,
      weighed: this.parts.map((_, p) => this.weigh(p, this.baseOf(p))),
      made: this.made,
      calledFor: this.calledFor,
      grams: this.parts.map((part, p) => part.lines.map((line) => this.lineGrams(line, this.baseOf(p)))),
      dough: dough < 0 ? undefined : dough,
      sizedByTin: this.sizedByTin,
      producersFirst: order,
      troubles: this.troubles,
    };
  }

  // --- order ----------------------------------------------------------------------------------------------------

  /** Parts on a cycle are reported once and left without weights. */
  private producersFirst(): readonly number[] {
    const { producersFirst, cycles } = makingOrder(this.parts.map((part) => part.lines.map((line) => line.part)));
    for (const cycle of cycles) {
      const closing = this.parts[cycle.part]?.lines[cycle.line];
      cycle.parts.forEach((p) => this.inCycle.add(p));
      if (closing) this.troubles.push({ kind: 'part-cycle', place: closing.namePlace, names: cycle.parts.map((p) => this.parts[p]?.name ?? '') });
    }
    return producersFirst;
  }

  // --- one part as a function of its base -------------------------------------------------------------------------

  /** The base that the part's own grams fix, or NaN. */
  private ownBase(p: number): number {
    const part = this.parts[p];
    if (!part) return NaN;
    const weighed = part.lines.filter((line) => line.inDough && line.term.kind === 'grams' && (line.part === undefined || !this.isTotal(p)));
    const shared = part.lines.some((line) => line.inDough && line.term.kind === 'share');
    const flours = part.lines.filter(isFlourLine);
    if (flours.length === 0) {
      // Ratios between the lines of a part with no flour: of its weighed lines, if there are any.
      return !shared || weighed.length > 0 ? total(weighed) : NaN;
    }
    const grams = total(flours.filter((line) => line.term.kind === 'grams'));
    const share = shareOf(flours);
    if (flours.some((line) => line.term.kind === 'unknown')) return NaN;
    if (grams > 0) return share < 1 - WHOLE_TOLERANCE ? grams / (1 - share) : grams;
    // No flour in grams: nothing here says how big, unless nothing is a share at all (then the lines are all there is).
    return shared ? NaN : 0;
  }

  private baseOf(p: number): number {
    return this.base[p] ?? NaN;
  }

  private isTotal(p: number): boolean {
    return this.parts[p]?.kind === 'total formula';
  }

  private lineGrams(line: LineDraft, base: number): number {
    switch (line.term.kind) {
      case 'grams':
        return line.term.grams;
      case 'share':
        return line.term.share * base;
      case 'all':
        return line.part === undefined ? NaN : this.available(line.part);
      case 'flour-share': {
        const part = line.part;
        if (part === undefined) return NaN;
        return this.gramsHoldingFlour(part, line.term.share * base);
      }
      case 'unknown':
        return NaN;
    }
  }

  /** What a part makes, less what is held back to feed the culture. */
  private available(p: number): number {
    const made = this.made[p] ?? NaN;
    const left = made - (this.parts[p]?.keepGrams ?? 0);
    // Keeping back more than there is leaves an amount that nobody knows, and never less than nothing.
    return left < -DUST * made ? NaN : Math.max(0, left);
  }

  /** The weight of all that goes in. A total formula lists what its preferments hold too, so the lines that take them in add nothing. */
  private weigh(p: number, base: number): number {
    const part = this.parts[p];
    if (!part) return NaN;
    const lines = part.lines.filter((line) => line.inDough && !(this.isTotal(p) && line.part !== undefined));
    return lines.reduce((sum, line) => sum + this.lineGrams(line, base), 0);
  }

  /** After cooking: `yields` if written, otherwise what went in. */
  private yieldOf(p: number, weighed: number): number {
    const yields = this.parts[p]?.yields;
    if (yields?.kind === 'grams') return yields.grams;
    if (yields?.kind === 'share') return yields.share * weighed;
    return yields === undefined ? weighed : NaN;
  }

  /** Flour in a part of this base: its own, that of its starter, and that of the parts in it. */
  private flourIn(p: number, base: number): number {
    // Sizing weighed lines inside parts inside parts multiplies; nobody writes more than a few deep.
    if (this.evaluations++ > MOST_EVALUATIONS) return NaN;
    return (this.parts[p]?.lines ?? []).reduce((sum, line) => {
      if (!line.inDough) return sum;
      const grams = this.lineGrams(line, base);
      if (line.starterHydrationPct !== undefined) return sum + grams * starterFlourShare(line.starterHydrationPct);
      if (line.part !== undefined) return sum + this.flourInGramsOf(line.part, grams);
      return isFlourLine(line) ? sum + grams : sum;
    }, 0);
  }

  private flourInGramsOf(p: number, grams: number): number {
    if (this.isSet[p] || this.isProportional(p)) return grams * this.flourShare(p);
    return this.flourIn(p, this.elasticBase(p, grams));
  }

  /** All in shares: whatever its size, the same is in each gram of it. */
  private isProportional(p: number): boolean {
    return this.parts[p]?.lines.every((line) => !line.inDough || line.term.kind === 'share') ?? false;
  }

  /** Flour in one gram of a part that is set or proportional. Worked out once. */
  private flourShare(p: number): number {
    const known = this.flourShares.get(p);
    if (known !== undefined) return known;
    const base = this.isSet[p] ? this.baseOf(p) : 1000;
    const share = this.flourIn(p, base) / this.yieldOf(p, this.weigh(p, base));
    this.flourShares.set(p, share);
    return share;
  }

  /** How much of a part must be taken in so that it brings this much flour. */
  private gramsHoldingFlour(p: number, flour: number): number {
    // A part with no flour in it holds no share of the flour, however much is taken.
    const share = this.isSet[p] || this.isProportional(p) ? this.flourShare(p) : undefined;
    if (share !== undefined) return share > 0 ? flour / share : NaN;
    const base = solveFor(flour, (b) => this.flourIn(p, b));
    return this.yieldOf(p, this.weigh(p, base));
  }

  private elasticBase(p: number, grams: number): number {
    return solveFor(grams, (b) => this.yieldOf(p, this.weigh(p, b)));
  }

  // --- sizes ------------------------------------------------------------------------------------------------------

  /** Sums what the parts already sized call for of this one. */
  private callFor(p: number): void {
    const lines = this.consumers[p] ?? [];
    this.calledFor[p] = lines.reduce((sum, at) => {
      const line = this.parts[at.part]?.lines[at.line];
      return line ? sum + this.lineGrams(line, this.baseOf(at.part)) : sum;
    }, 0);
  }

  private sizeDough(p: number, facts: Gathered['facts'], tin: Gathered['tin']): void {
    const part = this.parts[p];
    if (!part) return;
    if (!this.isSet[p]) {
      const wanted = wantedDough(facts);
      const scalable = part.lines.some((line) => line.inDough && line.term.kind === 'share');
      if (!scalable && !Number.isNaN(this.weigh(p, 0))) {
        this.base[p] = total(part.lines.filter(isFlourLine));
      } else if (!Number.isNaN(wanted)) {
        this.sizeTo(wanted, p, facts.makes?.place ?? part.place);
      } else if (scalable && !part.lines.some((line) => line.term.kind === 'unknown')) {
        this.base[p] = this.baseFromPart(p);
        const filling = Number.isNaN(this.baseOf(p)) ? doughForTins(facts, tin) : NaN;
        this.sizedByTin = !Number.isNaN(filling);
        if (this.sizedByTin) this.sizeTo(filling, p, facts.makes?.place ?? part.place);
        else if (Number.isNaN(this.baseOf(p))) this.troubles.push({ kind: 'no-size', place: part.place, part: part.name });
      }
      this.reportFlour(p);
    }
    this.made[p] = this.doughGrams(p, this.baseOf(p));
  }

  private sizeTo(wantedGrams: number, p: number, place: Place): void {
    // A dough of no pieces, or of pieces of nothing, has no size; a check says so.
    if (wantedGrams <= 0) return;
    this.base[p] = solveFor(wantedGrams, (b) => this.doughGrams(p, b));
    // Unknown is not too much: whatever is not known is said elsewhere.
    if (!(this.baseOf(p) <= 0)) return;
    this.base[p] = NaN;
    const message =
      `What is weighed in grams comes to ${Math.round(this.doughGrams(p, 0))} g, and the formula is to make ${Math.round(wantedGrams)} g, ` +
      'so nothing is left for the flour. Weigh in less, or make more.';
    this.troubles.push({ kind: 'contradiction', place, message });
  }

  /** `15 % of flour in levain` with a levain in grams says how much flour there is. */
  private baseFromPart(p: number): number {
    for (const line of this.parts[p]?.lines ?? []) {
      if (line.term.kind === 'flour-share' && line.part !== undefined && this.isSet[line.part]) {
        return ((this.available(line.part) / (this.made[line.part] ?? NaN)) * this.flourIn(line.part, this.baseOf(line.part))) / line.term.share;
      }
    }
    return NaN;
  }

  /** The dough's weight: for a total formula the list, less the water that its scalds lose in cooking. */
  private doughGrams(p: number, base: number): number {
    const weighed = this.weigh(p, base);
    if (!this.isTotal(p)) return weighed;
    const lines = this.parts[p]?.lines ?? [];
    return lines.reduce((sum, line) => (line.part === undefined ? sum : sum - this.cookedOff(line.part, this.lineGrams(line, base))), weighed);
  }

  private cookedOff(p: number, grams: number): number {
    if (this.parts[p]?.yields === undefined) return 0;
    const base = this.isSet[p] ? this.baseOf(p) : this.elasticBase(p, grams);
    const weighed = this.weigh(p, base);
    const made = this.yieldOf(p, weighed);
    return made > 0 ? ((weighed - made) * grams) / made : 0;
  }

  private sizeElastic(p: number, kind: 'formula' | 'dish'): void {
    const part = this.parts[p];
    if (!part) return;
    const shares = part.lines.some((line) => line.inDough && line.term.kind === 'share');
    if (!shares) {
      // Flour missing from what is known, or no lines at all: nothing is elastic here.
      this.base[p] = total(part.lines.filter(isFlourLine));
      this.made[p] = this.yieldOf(p, this.weigh(p, this.baseOf(p)));
      return;
    }
    this.reportFlour(p);
    const asked = this.consumers[p] ?? [];
    const wanted = (this.calledFor[p] ?? NaN) + part.keepGrams;
    if (kind === 'dish' && part.lines.every((line) => line.term.kind === 'share')) {
      this.troubles.push({ kind: 'share-of-nothing', place: part.place, part: part.name });
      return;
    }
    // All of something that is as large as is asked for says nothing about how large that is.
    const unsized = asked.length === 0 || asked.some((at) => this.parts[at.part]?.lines[at.line]?.term.kind === 'all');
    if (unsized) {
      this.troubles.push({ kind: 'no-size', place: part.place, part: part.name });
      return;
    }
    if (Number.isNaN(wanted)) return;
    this.base[p] = this.elasticBase(p, wanted);
    this.made[p] = this.yieldOf(p, this.weigh(p, this.baseOf(p)));
  }

  // --- what cannot be ---------------------------------------------------------------------------------------------

  private reportFlour(p: number): void {
    const part = this.parts[p];
    if (!part) return;
    const flours = part.lines.filter(isFlourLine);
    const share = shareOf(flours);
    const grams = flours.some((line) => line.term.kind === 'grams');
    const first = flours.find((line) => line.term.kind === 'share');
    if (!first || flours.some((line) => line.term.kind === 'unknown')) return;
    const wrong = grams ? share >= 1 - WHOLE_TOLERANCE : Math.abs(share - 1) > WHOLE_TOLERANCE;
    if (wrong) {
      this.troubles.push({ kind: 'flour-not-whole', place: first.amountPlace, part: part.name, pct: share * 100, gramsToo: grams });
    }
  }

  private reportNoFlour(p: number): void {
    const asked = this.consumers[p]?.map((at) => this.parts[at.part]?.lines[at.line]).find((line) => line?.term.kind === 'flour-share');
    const part = this.parts[p];
    if (!asked || !part || part.lines.some((line) => isFlourLine(line) || line.part !== undefined || line.starterHydrationPct !== undefined)) return;
    this.troubles.push({ kind: 'contradiction', place: asked.place, message: `There is no flour in “${part.name}”, so none of the flour can be in it. Write how much of it is taken, in grams.` });
  }

  private reportShort(p: number): void {
    const part = this.parts[p];
    const made = this.made[p] ?? NaN;
    if (part && part.keepGrams > made * (1 + DUST) + 0.05) {
      this.troubles.push({ kind: 'part-short', place: part.place, name: part.name, madeGrams: made, calledForGrams: part.keepGrams, kept: true });
      return;
    }
    const called = this.calledFor[p] ?? NaN;
    const available = this.available(p);
    if (!part || !(called > available * (1 + 1e-9) + 0.05)) return;
    const at = this.consumers[p]?.find(({ part: c, line }) => this.parts[c]?.lines[line]?.term.kind !== 'all') ?? this.consumers[p]?.[0];
    const line = at && this.parts[at.part]?.lines[at.line];
    if (line) this.troubles.push({ kind: 'part-short', place: line.amountPlace, name: part.name, madeGrams: available, calledForGrams: called });
  }

  private compareWithMakes(p: number, facts: Gathered['facts']): void {
    const wanted = wantedDough(facts);
    const made = this.made[p] ?? NaN;
    if (!facts.makes || !(wanted > 0) || !this.isSet[p] || !(Math.abs(made - wanted) > AGREE_TOLERANCE * wanted)) return;
    const kept = 1 - facts.benchLoss;
    this.troubles.push({ kind: 'makes-disagrees', place: facts.makes.place, claimedGrams: wanted * kept, actualGrams: made * kept });
  }

  private reportUnused(dough: number, facts: Gathered['facts']): void {
    if (dough < 0 || facts.kind === 'dish') return;
    const added = new Set(facts.method.flatMap((step) => [step, ...step.children]).flatMap(({ node }) => node.details.flatMap((detail) => (detail.kind === 'add' ? [detail.name.text.toLowerCase()] : []))));
    this.parts.forEach((part, p) => {
      if (p === dough || BESIDE_KINDS.has(part.kind) || (this.consumers[p]?.length ?? 0) > 0 || added.has(part.key)) return;
      this.troubles.push({ kind: 'part-unused', place: part.place, name: part.name });
    });
  }
}

/** The dough that `makes` asks for, bench loss added, g; NaN when it does not say. */
function wantedDough(facts: Gathered['facts']): number {
  const makes = facts.makes?.node;
  if (makes?.each?.kind !== 'mass') return NaN;
  const pieces = makes.pieces ? quantityMiddle(makes.pieces) : 1;
  return (pieces * toGrams(makes.each)) / (1 - facts.benchLoss);
}

/** The dough that usually fills the tins of `makes`, bench loss added, g; NaN when it names none. */
function doughForTins(facts: Gathered['facts'], tin: Gathered['tin']): number {
  const pieces = facts.makes?.node.pieces ? quantityMiddle(facts.makes.node.pieces) : 1;
  return tin ? (pieces * tin.millilitres) / tin.usual.usualMlPerGram / (1 - facts.benchLoss) : NaN;
}

function total(lines: readonly LineDraft[]): number {
  return lines.reduce((sum, { term }) => sum + (term.kind === 'grams' ? term.grams : 0), 0);
}

function shareOf(lines: readonly LineDraft[]): number {
  return lines.reduce((sum, { term }) => sum + (term.kind === 'share' ? term.share : 0), 0);
}

/**
 * Where a rising function that is linear, or nearly so (a part whose own parts hold weighed lines), has a value. The line
 * through 0 and 1000 is exact for a linear one; the few steps of the secant after it settle the rest.
 */
function solveFor(target: number, f: (x: number) => number): number {
  const atNothing = f(0);
  let slope = (f(1000) - atNothing) / 1000;
  let x = (target - atNothing) / slope;
  for (let i = 0; i < 50; i++) {
    const miss = f(x) - target;
    if (Number.isNaN(miss)) return NaN;
    if (Math.abs(miss) <= 1e-13 * Math.abs(target)) break;
    const next = x - miss / slope;
    if (next === x) break;
    slope = (f(next) - (miss + target)) / (next - x) || slope;
    x = next;
  }
  return Number.isFinite(x) ? x : NaN;
}
