/** `proofsheet scale`: the file's own numbers at another size. */
import { parse } from '../../grammar';
import { analyse, type Environment } from '../core/analyse';
import type { Finding } from '../core/checks/check';
import type { Section } from '../core/formula/model';
import { sectionsOf } from '../core/formula/sections';
import { applyNumberEdits } from '../core/scaling/apply';
import { rescale } from '../core/scaling/rescale';
import { titleOf } from '../output/entry';
import { counted, decimals } from '../output/numbers';
import { printable } from '../output/width';
import { lineIndexOf, type LineIndex } from '../project/lines';
import { edited, markdownPageOf } from '../project/markdown';
import type { PlacedSection, ProjectFile } from '../project/file';
import { eachDocument, entryOf, lineOf, type Document } from './documents';
import { cannotRead, replaceFile, STDIN, STDIN_NAME } from './files';
import { nothingFound, sameName } from './formulas';
import type { Options } from './options';
import { Refusal, worst, type ExitStatus } from './refusal';
import { SIZE_OPTIONS, sizeAskedFor, stepAskedFor } from './size';
import type { Verb } from './verb';
import type { Terminal } from './terminal';

export const scale: Verb = {
  name: 'scale',
  summary: 'rewrites the amounts for another size',
  takes: 'FILE',
  about: [
    'Prints the file with the amounts of a formula brought to another size: weights, volumes, counts, "makes", "serves", what is '
      + 'kept back and the portions that steps add. Shares, times, temperatures, comments and layout stay, and every number is '
      + 'written the way its author wrote it. With --write it goes into the file. "-" reads standard input.',
    'Nothing is rounded unless --step says what the scale reads to. Eggs stay whole all the same, and the liquid beside them is '
      + 'corrected. What rounding did is told on standard error.',
    'A tin is scaled by the ratio of volumes when the formula names one ("makes 2 tins of 1.8 l"), else by a usual figure for its '
      + 'style, which is told too.',
    'The exit status is 1 when the formula has errors, before or after, and 2 when it cannot be scaled; nothing is written then.',
  ],
  examples: [
    'proofsheet scale rye.bake --pieces 6', 'proofsheet scale rye.bake --have "180 g starter" --step 1g --small-step 0.1g',
    'proofsheet scale book.bake --formula "Seeded tin loaf" --tin 2.4l --write',
  ],
  options: {
    formula: { value: 'NAME', what: 'the formula or dish of that name, where the file has several' },
    ...SIZE_OPTIONS,
    write: { what: 'rewrites the file' },
  },
  async run(options, { terminal, stdin }) {
    const request = sizeAskedFor(options);
    const step = stepAskedFor(options);
    if (request === undefined) throw new Refusal('Say the size: --pieces 6, --piece 900g, --dough 5kg, --flour 3kg, --factor 1.5, --tin 1.8l or --have "180 g starter".');
    const [name, second] = options.files;
    if (name === undefined || second !== undefined) throw new Refusal('Name one file to scale, or "-" for standard input.');
    if (name === STDIN && options.has('write')) throw new Refusal('Standard input cannot be rewritten: leave --write out.');
    const documents: Document[] = [];
    const { unreadable } = await eachDocument(options, terminal, stdin, (document) => documents.push(document));
    const [document] = documents;
    if (documents.length > 1) throw new Refusal(`${printable(name)} holds ${counted(documents.length, 'file')}, and scale takes one at a time.`);
    if (document === undefined || unreadable > 0) return 2;

    const section = chosenSection(document, options);
    const { formula, totals } = section.analysis;
    if (formula === undefined || totals === undefined) throw new Refusal(nothingFound(options.get('formula'), []));
    const title = titleOf(formula);
    const at = lineOf(document.file, section);
    const rescaled = rescale({ section: section.analysis.section, formula, flourGrams: totals.flour_g }, request, step);
    if (rescaled.kind === 'cannot') {
      const where = rescaled.place === undefined ? '' : `${document.shown}:${String(at(rescaled.place))}: `;
      terminal.say(printable(`${where}"${title}" cannot be scaled. ${rescaled.message}`));
      return 2;
    }

    const scaled = withEdits(document.file, section, rescaled.edits);
    const say = (line: number, sentence: string): void => terminal.say(printable(`${document.shown}:${String(line)}: ${sentence}`));
    for (const { place, message } of rescaled.notes) say(at(place), message);
    for (const other of variantsLeft(document, section)) terminal.say(printable(other));
    const status = compareFindings(document, section, scaled, say);
    if (rescaled.edits.length === 0) terminal.say(printable(`"${title}" has that size already.`));
    if (!options.has('write')) {
      terminal.out((document.bom ? '\uFEFF' : '') + scaled.source);
      return status;
    }
    if (rescaled.edits.length === 0 || document.path === undefined) return status;
    const written = await rewrite(document, document.path, scaled.source, terminal);
    if (written === 0) terminal.say(printable(`"${title}" in ${document.shown} is now ${decimals(rescaled.factor, 4)} times the size it was.`));
    return worst(status, written);
  },
};

/** A file with other numbers, and what of it is formulas: all of it, or what stands in the fences of a Markdown page. */
interface Scaled {
  readonly source: string;
  readonly text: string;
  readonly lineIndex: LineIndex;
}

function withEdits({ text, page }: ProjectFile, section: PlacedSection, edits: Parameters<typeof applyNumberEdits>[1]): Scaled {
  if (page === undefined) {
    const source = applyNumberEdits(text, edits, (place) => section.offsetsOf(place));
    return { source, text: source, lineIndex: lineIndexOf(source) };
  }
  return markdownPageOf(edited(page.source, edits.map(({ place, newText }) => {
    const { start, end } = section.offsetsOf(place);
    return page.edit(start, end, newText);
  })));
}

async function rewrite({ shown, bom }: Document, path: string, text: string, terminal: Terminal): Promise<ExitStatus> {
  try {
    await replaceFile(path, (bom ? '\uFEFF' : '') + text);
    return 0;
  } catch (error) {
    terminal.say(printable(cannotRead(shown, error)));
    return 2;
  }
}

/** @throws Refusal when the name, or the lack of one, leaves none or several */
function chosenSection({ file, shown }: Document, options: Options): PlacedSection {
  const wanted = options.get('formula');
  const all = file.sections.filter(({ section: { kind } }) => kind === 'formula' || kind === 'dish');
  const found = wanted === undefined ? all : all.filter(({ section: { name } }) => sameName(name) === sameName(wanted));
  const [only, second] = found;
  if (only === undefined) throw new Refusal(nothingFound(wanted, all.map(({ section: { name } }) => name)));
  if (second === undefined) return only;
  if (wanted !== undefined) throw new Refusal(printable(`${shown} has ${String(found.length)} formulas named "${wanted}": rename one of them first.`));
  const names = found.flatMap((section) => {
    const entry = entryOf(file, section);
    return entry === undefined ? [] : [`"${titleOf(entry.formula)}"`];
  });
  const list = names.length > 8 ? `${String(names.length)} formulas` : names.join(', ');
  throw new Refusal(printable(`Say which formula, with --formula NAME. ${shown === STDIN_NAME ? 'There are' : `${shown} has`} ${list}.`));
}

/** Variants of the scaled formula that set amounts themselves: those stay as they are, and somebody must know. */
function variantsLeft({ file, shown }: Document, scaled: PlacedSection): readonly string[] {
  return file.sections.flatMap((section) => {
    const deltas = section.analysis.formula?.deltas ?? [];
    const base = deltas.find(({ node }) => node.kind === 'based-on');
    if (base?.node.kind !== 'based-on' || sameName(base.node.base.text) !== sameName(scaled.section.name)) return [];
    const own = deltas.find(({ node }) => {
      const amount = node.kind === 'set' ? node.amount : node.kind === 'add' ? node.line.amount : undefined;
      return amount !== undefined && amount.kind !== 'share' && amount.kind !== 'all';
    });
    if (own === undefined) return [];
    return [`${shown}:${String(lineOf(file, section)(own.place))}: "${section.section.name}" is based on it and sets an amount of its own, which stays as it is.`];
  });
}

/** Tells what the new text has to be warned of that the old had not; 1 when there is an error, before or after. */
function compareFindings({ file }: Document, section: PlacedSection, { text, lineIndex }: Scaled, say: (line: number, sentence: string) => void): ExitStatus {
  const before = section.analysis.findings;
  const { blocks } = parse(text);
  const again = sectionsOf(blocks.map(({ block }) => block))[file.sections.indexOf(section)];
  const after = again === undefined ? [] : analyse(again.section, withSection(section, again.section)).findings;
  for (const finding of added(before, after)) {
    const offset = (blocks[(again?.first ?? 0) + finding.place.block]?.offset ?? 0) + finding.place.start;
    say(lineIndex.positionAt(offset).line + 1, `rounding brings a new finding, ${finding.code}: ${finding.message}`);
  }
  return [...before, ...after].some(({ severity }) => severity === 'error') ? 1 : 0;
}

/** What a formula has around it, when its text is another: formulas look each other up by name, themselves too. */
function withSection({ section, environment }: PlacedSection, again: Section): Environment {
  const formulas = new Map([...environment.formulas].map(([name, known]) => [name, known === section ? again : known] as const));
  return { ...environment, formulas };
}

function added(before: readonly Finding[], after: readonly Finding[]): readonly Finding[] {
  const known = new Map<string, number>();
  for (const { code } of before) known.set(code, (known.get(code) ?? 0) + 1);
  return after.filter(({ code, severity }) => {
    const left = known.get(code) ?? 0;
    known.set(code, left - 1);
    return left <= 0 && severity !== 'info';
  });
}
