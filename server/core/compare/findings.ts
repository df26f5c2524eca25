/** Findings that appear and disappear: by what is found, not by the line where it stands. */
import type { Finding } from '../checks/check';
import { foldName } from '../ingredients/names';
import type { Change, ComparedSection, Fact } from './model';

/**
 * A finding stays when the other version has one of its code with the same words, failing that at the same words of the text, failing
 * that one of its code at all: a number in its sentence may be another now. What is left over came or went.
 *
 * @param renamed names of before, folded, that are another name now
 */
export function compareFindings(before: ComparedSection, after: ComparedSection, renamed: ReadonlyMap<string, string>): readonly Change[] {
  const gone: Finding[] = [];
  const there = new Map<string, Finding[]>();
  for (const finding of after.analysis.findings) {
    const group = there.get(finding.code);
    if (group === undefined) there.set(finding.code, [finding]);
    else group.push(finding);
  }
  const ofCode = new Map<string, Finding[]>();
  for (const finding of before.analysis.findings) {
    const group = ofCode.get(finding.code);
    if (group === undefined) ofCode.set(finding.code, [finding]);
    else group.push(finding);
  }
  for (const [code, was] of ofCode) {
    const is = there.get(code) ?? [];
    const left = [({ message }: Finding) => message, subjectIn(renamed, before, after)].reduce((rest, keyOf) => unpaired(rest, is, keyOf), was);
    const kept = Math.min(left.length, is.length);
    gone.push(...left.slice(kept));
    is.splice(0, kept);
  }
  return [
    ...[...there.values()].flat().map((finding): Change => ({ what: 'finding', before: undefined, after: fact(after, finding) })),
    ...gone.map((finding): Change => ({ what: 'finding', before: fact(before, finding), after: undefined })),
  ];
}

function fact({ lineOf }: ComparedSection, { code, severity, message, place }: Finding): Fact {
  return { name: code, severity, text: message, line: lineOf(place) };
}

/** Takes those that have a partner out of both lists; the answer is the first list without them. */
function unpaired(was: readonly Finding[], is: Finding[], keyOf: (finding: Finding) => string): Finding[] {
  const there = new Map<string, Finding[]>();
  for (const finding of is) there.set(keyOf(finding), [...(there.get(keyOf(finding)) ?? []), finding]);
  const paired = new Set<Finding>();
  const rest = was.filter((finding) => {
    const partner = there.get(keyOf(finding))?.shift();
    if (partner !== undefined) paired.add(partner);
    return partner === undefined;
  });
  is.splice(0, is.length, ...is.filter((finding) => !paired.has(finding)));
  return rest;
}

/** The words that a finding stands at, without their numbers, so that an amount that changes is the same subject. */
function subjectIn(renamed: ReadonlyMap<string, string>, before: ComparedSection, after: ComparedSection): (finding: Finding) => string {
  const sections = new Map<Finding, ComparedSection>([...before.analysis.findings.map((finding) => [finding, before] as const), ...after.analysis.findings.map((finding) => [finding, after] as const)]);
  return (finding) => {
    const section = sections.get(finding)?.section;
    const { block, start, end } = finding.place;
    const words = foldName((section?.blocks[block]?.text.slice(start, end) ?? '').replace(/[\d.]+/g, ' '));
    return renamed.get(words) ?? words;
  };
}
