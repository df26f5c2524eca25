/**
 * Another name for a part, a formula, a dish or an ingredient of one's own, wherever it is named. What would come out is
 * tried first: a name by which anything would mean another thing than before, or be found at fault, is refused.
 */
import type { Range, WorkspaceEdit } from 'vscode-languageserver';
import { VOCABULARY } from '../../grammar';
import { textEditIn } from '../project/file';
import type { ProjectFile } from '../project/file';
import { applyChanges, lineIndexOf } from '../project/lines';
import { baseName } from '../project/uris';
import { nameAt } from './shared/names';
import type { Occurrence } from './shared/names';
import { coreOf, renamedPlace } from './shared/new-name';
import type { NameEdit } from './shared/new-name';
import { makerOf, placesIn, placesOf } from './shared/places';
import type { Place } from './shared/places';
import { everyNameIn, firstMixedUp, firstNewFinding } from './shared/what-if';
import { editOfWorkspace } from './shared/workspace-edit';
import type { TextsOfEditor } from './shared/workspace-edit';

/** Why not, in one sentence. */
export interface Refused {
  readonly refused: string;
}

export interface RenameOptions extends TextsOfEditor {
  /** Every file that may name the same things, each with its own surroundings. */
  readonly others: readonly ProjectFile[];
  /** The files as they would be with other texts in some of them, by URI. */
  suppose(texts: ReadonlyMap<string, string>): (uri: string) => ProjectFile | undefined;
}

/** The name under the cursor as it is to be typed over. */
export function prepareRenameAt(file: ProjectFile, offset: number): { readonly range: Range; readonly placeholder: string } | Refused {
  const name = nameAt(file, file.environment, offset);
  const refused = whyNot(file, offset, name);
  if (name === undefined || refused !== undefined) return { refused: refused ?? NO_NAME };
  const core = coreOf({ file, name }, madeAs(file, name));
  const placeholder = name.loose ? fullName(placesIn(file, name.named)) ?? core.text : core.text;
  return { range: file.lineIndex.rangeOf(core.start, core.end), placeholder };
}

/** The edits that give a new name to what the cursor is on, in every file. */
export function renameAt(file: ProjectFile, offset: number, newName: string, options: RenameOptions): WorkspaceEdit | Refused {
  const name = nameAt(file, file.environment, offset);
  const refused = whyNot(file, offset, name) ?? whyNoName(newName);
  if (name === undefined || refused !== undefined) return { refused: refused ?? NO_NAME };
  const asked = newName.trim().replace(/\s+/g, ' ');
  const places = placesOf(file, name.named, options.others);
  const made = madeAs(file, name);
  if (made !== undefined && !places.some(place => place.name.defines)) return { refused: `The file in which “${made}” is made cannot be reached, so it keeps its name.` };
  const reference = (name.loose ? fullName(places) : undefined) ?? coreOf({ file, name }, made).text;
  const editOf = (place: Place) => ({ place, edit: renamedPlace(place, asked, reference, made) });

  const now = seeing([...new Set([file, ...options.others])], places);
  const names = everyNameIn(now);
  const suppose = (edits: Edits) => {
    const at = options.suppose(textsAfter(edits));
    return now.flatMap(one => at(one.uri) ?? []);
  };
  // A short word of a step stays as long as it is understood, and is written out in full when it no longer is.
  const exact = places.filter(place => !place.name.loose).map(editOf);
  let edits = byFile(exact);
  let then = suppose(edits);
  let after = everyNameIn(then);
  const lost = places.filter(place => place.name.loose && !stillMeant(place, names, after, exact[0]?.place));
  if (lost.length > 0) {
    edits = byFile([...exact, ...lost.map(editOf)]);
    then = suppose(edits);
    after = everyNameIn(then);
  }
  const mixed = firstMixedUp(names, after);
  if (mixed !== undefined) {
    const { first, second } = mixed;
    const isOwn = (one: Names[number]): boolean => places.some(place => place.file.uri === one.file.uri && place.name.start === one.name.start);
    return { refused: isOwn(first) || (second !== undefined && isOwn(second)) ? whereTaken(asked, isOwn(first) ? second ?? first : first) : whereUnclear(asked, first) };
  }
  const finding = firstNewFinding(now, then, places);
  if (finding !== undefined) return { refused: `“${asked}” will not do on line ${finding.line} of ${finding.file}: ${finding.message}` };
  return editOfWorkspace([...edits].map(([one, list]) => ({ file: one, edits: list.map(({ start, end, newText }) => textEditIn(one, start, end, newText)) })), options);
}

type Edits = ReadonlyMap<ProjectFile, readonly NameEdit[]>;

const NO_NAME = 'There is no name here: parts, formulas, dishes and ingredients of your own can be renamed.';

function whyNot(file: ProjectFile, offset: number, name: Occurrence | undefined): string | undefined {
  if (name === undefined) {
    const word = wordAt(file.text, offset);
    return VOCABULARY.some(({ label }) => label.split(' ').includes(word.toLowerCase())) ? `“${word}” is a word of the language and keeps its name.` : NO_NAME;
  }
  const { named } = name;
  switch (named.kind) {
    case 'part':
      return undefined;
    case 'file':
      return 'This is the path of a file: rename the file itself, and the `use` lines follow.';
    case 'formula':
      return named.section === undefined ? `No formula in sight is called “${name.text}”, so there is nothing to rename.` : undefined;
    case 'ingredient':
      if (named.key === 'starter') return `“${name.text}” is the language’s word for a ripe culture and keeps its name.`;
      if (named.key.startsWith('?') || makerOf(file, named.key) !== undefined) return undefined;
      return `“${name.text}” is of the built-in table; add an \`ingredient\` block to name your own.`;
  }
}

function wordAt(text: string, offset: number): string {
  const before = /[\p{L}\p{M}]*$/u.exec(text.slice(Math.max(0, offset - 40), offset))?.[0] ?? '';
  return before + (/^[\p{L}\p{M}]*/u.exec(text.slice(offset, offset + 40))?.[0] ?? '');
}

function whyNoName(newName: string): string | undefined {
  if (newName.trim() === '') return 'A name needs at least one letter.';
  if (/["“”„‟«»]/.test(newName)) return 'A name cannot hold quotation marks, since they end it.';
  return /[\u0000-\u001f\u007f\u2028\u2029\u0085]/.test(newName) ? 'A name stands on one line, without tabs.' : undefined;
}

/** How the block that makes it calls an ingredient of one's own, or a formula or part; undefined when nothing makes it. */
function madeAs(file: ProjectFile, { named, text }: Occurrence): string | undefined {
  if (named.kind !== 'ingredient') return text;
  const maker = makerOf(file, named.key);
  const place = [file, ...file.visible].find(one => one.uri === maker);
  return place?.tree.blocks.flatMap(({ block: { head: { node } } }) => (
    node.kind === 'ingredient' && node.name !== undefined && file.environment.catalogue.find(node.name.text)?.key === named.key ? [node.name.text] : []
  ))[0];
}

function fullName(places: readonly Place[]): string | undefined {
  const full = places.filter(place => !place.name.loose);
  return (full.find(place => place.name.defines) ?? full[0])?.name.text;
}

/** Files that have something to do with those in which places change. */
function seeing(files: readonly ProjectFile[], places: readonly Place[]): readonly ProjectFile[] {
  const changed = new Set(places.map(({ file }) => file.uri));
  return files.filter(file => changed.has(file.uri) || file.visible.some(other => changed.has(other.uri)));
}

function byFile(edits: readonly { readonly place: Place; readonly edit: NameEdit | undefined }[]): Edits {
  const grouped = new Map<ProjectFile, NameEdit[]>();
  for (const { place: { file }, edit } of edits) {
    if (edit === undefined || file.text.slice(edit.start, edit.end) === edit.newText) continue;
    grouped.set(file, [...grouped.get(file) ?? [], edit]);
  }
  return grouped;
}

/** The whole texts of files, pages around fences included. */
function textsAfter(edits: Edits): ReadonlyMap<string, string> {
  return new Map([...edits].map(([file, list]) => {
    const source = file.page?.source ?? file.text;
    const index = lineIndexOf(source);
    const changes = list
      .map(({ start, end, newText }) => textEditIn(file, start, end, newText))
      .sort((a, b) => index.offsetAt(b.range.start) - index.offsetAt(a.range.start))
      .map(({ range, newText }) => ({ range, text: newText }));
    return [file.uri, applyChanges(source, changes)];
  }));
}

type Names = ReturnType<typeof everyNameIn>;

/** Whether as many names on the line of a place mean the renamed thing as before. `known` is a place where it is surely meant. */
function stillMeant(place: Place, names: Names, after: Names, known: Place | undefined): boolean {
  const idAt = (list: Names, at: Place | undefined): string | undefined => {
    if (at === undefined) return undefined;
    const nth = (one: Names) => one.filter(other => other.file.uri === at.file.uri && other.line === at.file.lineIndex.positionAt(at.name.start).line);
    const index = nth(names).findIndex(other => other.name.start === at.name.start);
    return nth(list)[index]?.id;
  };
  const count = (list: Names): number => {
    const id = idAt(list, known);
    const { line } = place.file.lineIndex.positionAt(place.name.start);
    return list.filter(other => other.file.uri === place.file.uri && other.line === line && other.id === id).length;
  };
  return count(names) === count(after);
}

function whereTaken(newName: string, { file, name: { text }, line }: Names[number]): string {
  return `“${newName}” would be taken for “${text}” on line ${line + 1} of ${baseName(file.uri)}: choose a name that nothing has yet.`;
}

function whereUnclear(newName: string, { file, name: { text }, line }: Names[number]): string {
  return `With “${newName}”, “${text}” on line ${line + 1} of ${baseName(file.uri)} would mean something else: write that name in full first.`;
}
