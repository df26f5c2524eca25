/** Temperature, fermentation, allergens and what cannot be known, as hovers say them. */
import type { Analysis } from '../../core/analyse';
import { levainReport } from '../../core/fermentation';
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart } from '../../core/formula/model';
import { allergenFacts, type AllergenLists } from '../../output/facts/allergens';
import { doughTemperatureFacts, outcomeWords } from '../../output/facts/dough-temperature';
import { elsewhereOf, elsewhereSource, ripenessWords, WATCH } from '../../output/facts/fermentation';
import { compositionsUnknown, whyUnknown } from '../../output/facts/unknown';
import { bothScales, hoursWords, sentence, type FactBlock } from '../../output/facts/words';
import { escaped, paragraphs, table } from './markdown';

/** Under the totals of a formula: why some are not known, the water for its dough, its allergens. */
export function factsWords({ section, formula, totals }: Analysis, lists?: AllergenLists): string {
  if (formula === undefined || totals === undefined || formula.parts.length === 0) return '';
  const why = whyUnknown({ formula, section });
  const unknown = why === undefined ? [...new Set(compositionsUnknown({ formula, totals }))] : [why];
  return paragraphs(...unknown.map(escaped), blockWords(doughTemperatureFacts(formula)), blockWords(allergenFacts(formula, lists)));
}

function blockWords(block: FactBlock | undefined): string | undefined {
  if (block === undefined) return undefined;
  return [`**${block.title}**`, ...block.facts.map(({ label, value }) => `${escaped(label)}: ${escaped(value)}`)].join('  \n');
}

/** Of the head of a dough: its water. Of a preferment: how ripe it is when it goes in. */
export function partFacts(formula: ResolvedFormula, part: ResolvedPart): string | undefined {
  const index = formula.parts.indexOf(part);
  if (index === formula.dough) return blockWords(doughTemperatureFacts(formula));
  const report = levainReport(formula).find((each) => each.part === index);
  return report && escaped(`${sentence(ripenessWords(report))} ${sentence(WATCH)}`);
}

/** Of a line of the dough's water that says how warm it is: the dough that comes out. */
export function outcomeOf(formula: ResolvedFormula, line: ResolvedLine): string | undefined {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (line.celsius === null || line.ingredient?.isWater !== true || dough?.lines.includes(line) !== true) return undefined;
  const words = outcomeWords(formula);
  return words && escaped(words);
}

/** Of a bulk, a retard or a ripening: how long the same fermentation takes at other temperatures. */
export function elsewhereWords(formula: ResolvedFormula, place: Place): string | undefined {
  const found = elsewhereOf(formula, place);
  if (found === undefined) return undefined;
  const rows = found.rows.map(({ celsius, hours }) => [bothScales(celsius), hours === null ? undefined : hoursWords(hours)] as const);
  return paragraphs(escaped(found.what), table(['at', 'takes'], rows), `*${escaped(elsewhereSource(found))}*`);
}
