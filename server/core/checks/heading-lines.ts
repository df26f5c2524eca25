/** Where in the page of checks each code has its heading. A module of its own: a bundle takes the lines from the page as it ships. */
import { topics } from '.';
import { documentChecks } from './document';

let lines: ReadonlyMap<string, number> | undefined;

/** The line of each code's heading, from 1. */
export function headingLines(): ReadonlyMap<string, number> {
  lines ??= new Map(
    documentChecks(topics)
      .split('\n')
      .flatMap((line, index): readonly (readonly [string, number])[] => (line.startsWith('## ') ? [[line.slice(3), index + 1]] : [])),
  );
  return lines;
}
