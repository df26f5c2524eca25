/**
 * A method card: one formula or dish as somebody bakes from it, in words that are ready to print. Plain data; HTML and Markdown
 * are two ways to lay it out, and the recipe for other programs takes its words from it. Nothing in it is escaped.
 */
import type { NutritionTable } from '../facts/nutrition';
import type { Fact } from '../facts/words';

export interface Card {
  readonly title: string;
  /** `4 loaves of 855 g · hearth, with inclusions`; empty where nothing is said. */
  readonly yield: string;
  /** Where the size is not the one written: how many times it is. */
  readonly size: string | undefined;
  /** Why numbers are missing, where they are. */
  readonly unknown: string | undefined;
  /** A few figures: flour, hydration, salt. */
  readonly figures: readonly Fact[];
  /** In the order made. */
  readonly parts: readonly CardPart[];
  /** Each ingredient over all parts, in per cent of all the flour; empty for a dish. */
  readonly total: readonly TotalLine[];
  /** Weighed out, but kept out of the dough. */
  readonly besides: readonly CardLine[];
  /** Whether anything has a measure in spoons and cups, and whose they are. */
  readonly homeNote: string | undefined;
  /** In the order made: a section a part, then what is done with the dough. */
  readonly method: readonly MethodSection[];
  readonly timeline: CardTimeline | undefined;
  /** Heaviest first, as a label has them; undefined where nothing is weighed. */
  readonly ingredients: readonly Span[] | undefined;
  /** By each list, what the packets have to be asked, and what is not known. */
  readonly allergens: readonly Fact[];
  readonly cautions: readonly string[];
  /** After the cautions: that local rules come first. */
  readonly localRules: string;
  /** With no figures where none of them is known: then the notes say why. */
  readonly nutrition: NutritionTable | undefined;
  readonly notes: readonly string[];
  /** `By Inês`, `version 3`, … */
  readonly credits: readonly string[];
}

export interface CardPart {
  /** `Levain`, `Final dough` */
  readonly name: string;
  /** `at 26 °C (79 °F)`: the temperature that it should have. */
  readonly wanted: string | undefined;
  readonly lines: readonly CardLine[];
  readonly total: { readonly grams: string; readonly pct: string | undefined };
  /** `60 g kept back`, … */
  readonly after: readonly string[];
}

export interface CardLine {
  /** `1300 g`; `not known` */
  readonly weight: string;
  readonly name: string;
  /** `72.5 %` of the flour of its part; undefined in a dish and where it is not known. */
  readonly pct: string | undefined;
  /** In spoons and cups. */
  readonly home: string | undefined;
  /** Its temperature, its note. */
  readonly remarks: readonly string[];
  /** Another part of this card. */
  readonly isPart: boolean;
  /** Salt and what raises a dough: to be weighed, whatever else is not. */
  readonly mustWeigh: boolean;
}

export interface TotalLine {
  readonly name: string;
  readonly weight: string;
  readonly pct: string | undefined;
}

export interface MethodSection {
  readonly name: string;
  readonly steps: readonly MethodStep[];
}

export interface MethodStep {
  /** `Bulk` */
  readonly name: string;
  /** `3 h 30 min to 4 h at 24 °C (75 °F)`, `after 30 min`; empty where nobody says. */
  readonly takes: string;
  /** `until it has grown by 60 %`, `lid on`, …; empty where there is no more to say. */
  readonly words: string;
  /** When it begins, where a time was asked for: `14:05`. */
  readonly clock: string | undefined;
  /** Folds of a bulk. */
  readonly inside: readonly MethodStep[];
}

export interface CardTimeline {
  /** `Begun Fri 13 March 17:00, ready Sat 14 March 08:00.` or what the times of day rest on. */
  readonly about: string;
  readonly days: readonly TimelineDay[];
}

export interface TimelineDay {
  /** `Day 1`, `Fri 13 March 2026` */
  readonly name: string;
  readonly stretches: readonly {
    /** `morning`; a clock time where one was asked for. */
    readonly when: string;
    readonly what: readonly string[];
  }[];
}

/** A piece of a text, set off where the law wants it. */
export interface Span {
  readonly text: string;
  readonly strong: boolean;
}

/** What a card says for a weight that cannot be known: never 0. */
export const NOT_KNOWN = 'not known';
