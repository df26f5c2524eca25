/** A file as one of two versions that are compared. */
import type { ComparedFile, ComparedSection } from '../core/compare';
import type { PlacedSection, ProjectFile } from './file';

/** @param path by which it is matched with a file of the other version */
export function comparedFile(file: ProjectFile, path: string, sections: readonly PlacedSection[] = file.sections): ComparedFile {
  return { path, sections: sections.map((section) => comparedSection(file, section)) };
}

function comparedSection(file: ProjectFile, placed: PlacedSection): ComparedSection {
  const { section } = placed;
  const head = section.blocks[0]?.head.start ?? 0;
  return {
    section,
    // Worked out when it is asked for.
    get analysis() { return placed.analysis; },
    lineOf: (place) => file.lineIndex.positionAt(placed.offsetsOf(place.block < section.blocks.length ? place : { block: 0, start: head, end: head }).start).line + 1,
  };
}
