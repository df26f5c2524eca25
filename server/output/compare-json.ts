/** The stable JSON form of a comparison: a flat list of changes. */
import type { Change, Fact, SectionChanges } from '../core/compare';
import { json } from './json';

/**
 * `{"changes": [{"formula", "what", "before", "after", "line_before", "line_after", …}]}`. `before` and `after` are what it is called, an
 * amount in grams, a total in its unit or words, and null on the side that does not have it.
 */
export function compareJson(sections: readonly SectionChanges[]): string {
  return json({ changes: sections.flatMap((section) => section.changes.map((change) => changeJson(section, change))) });
}

function changeJson({ before: was, after: is, factor }: SectionChanges, change: Change): Readonly<Record<string, unknown>> {
  const { what, before, after } = change;
  const fact = after ?? before;
  const pct = fact?.pct === undefined ? {} : { pct_before: before?.pct ?? null, pct_after: after?.pct ?? null };
  return {
    formula: (is ?? was)?.name ?? '',
    what: wordOf(change),
    name: fact?.name ?? '',
    part: fact?.part ?? null,
    before: valueOf(change, before),
    after: valueOf(change, after),
    unit: fact?.unit === 'money' ? (after?.currency ?? before?.currency ?? null) : (fact?.unit ?? (inGrams(change) ? 'g' : null)),
    ...pct,
    ...(before !== undefined && after !== undefined && before.name !== after.name && { name_before: before.name }),
    ...(before !== undefined && after !== undefined && before.part !== after.part && { part_before: before.part ?? null }),
    ...(fact?.list !== undefined && { list: fact.list }),
    ...(fact?.severity !== undefined && { severity: fact.severity }),
    ...(what === 'scaled' && { factor }),
    ...(was !== undefined && was.path !== '' && { path_before: was.path }),
    ...(is !== undefined && is.path !== '' && { path_after: is.path }),
    line_before: before?.line ?? was?.line ?? null,
    line_after: after?.line ?? is?.line ?? null,
  };
}

/** What came and what went has a word of its own. */
function wordOf({ what, before, after }: Change): string {
  if (before !== undefined && after !== undefined) return what === 'total' || what === 'record' || what === 'property' ? `${what}-changed` : what;
  switch (what) {
    case 'allergen':
      return before === undefined ? 'allergen-gained' : 'allergen-lost';
    case 'finding':
      return before === undefined ? 'finding-appeared' : 'finding-gone';
    default:
      return before === undefined ? `${what}-added` : `${what}-dropped`;
  }
}

function inGrams({ what }: Change): boolean {
  return what === 'amount' || what === 'amount-rounded' || what === 'ingredient' || what === 'ingredient-moved' || what === 'ingredient-swapped' || what === 'part' || what === 'part-scaled' || what === 'scaled';
}

function valueOf(change: Change, fact: Fact | undefined): number | string | null {
  if (fact === undefined) return null;
  if (change.what === 'total') return fact.value ?? null;
  if (inGrams(change)) return fact.grams ?? null;
  return fact.text ?? fact.name;
}
