/** `proofsheet convert`: somebody else's recipe as a draft in this language. */
import path from 'node:path';
import { convert } from '../core/convert/convert';
import { builtInCatalogue } from '../core/ingredients/catalogue';
import { convertDoubts, convertJson, convertSummary } from '../output/convert-report';
import { printable } from '../output/width';
import { readSource, slashes, STDIN, STDIN_NAME } from './files';
import { Refusal } from './refusal';
import type { Verb } from './verb';
import { writeTarget } from './write-file';

export const convertVerb: Verb = {
  name: 'convert',
  summary: 'drafts a .bake file from a plain list, a saved web page or recipe data',
  takes: 'FILE',
  about: [
    'Reads a recipe from a text (a list of ingredients with a method, as in a mail), from a saved web page, or from JSON with a schema.org Recipe '
      + 'in it, and prints a draft. "-" reads standard input. Nothing is fetched: save the page first.',
    'What is sure is filled in. What is not stands at its place as a comment that begins with "# to decide:", which check lists until you have '
      + 'settled it. Every other line is kept as a note or a comment. On standard error it says how much was understood, and what to look at.',
    'A file that is there is left as it is, unless --force is given.',
  ],
  examples: ['proofsheet convert mail.txt', 'proofsheet convert page.html --out loaf.bake', 'proofsheet convert - --name "Stall loaf" < card.txt'],
  options: {
    name: { value: 'NAME', what: 'what the formula is called, whatever the text says' },
    out: { value: 'FILE', what: 'writes the draft to a file instead of printing it' },
    force: { what: 'writes over a file that is there' },
    json: { what: 'the draft and what became of each line, for other programs' },
  },
  async run(options, { terminal, stdin }) {
    const [file, ...others] = options.files;
    if (file === undefined) throw new Refusal('Name a file to convert, or "-" for standard input.');
    if (others.length > 0) throw new Refusal('Convert takes one file at a time.');
    const isStdin = file === STDIN;
    const shown = isStdin ? STDIN_NAME : slashes(file);
    const source = isStdin ? undefined : path.resolve(file);
    const read = await readSource({ shown, file: source }, stdin, 'recipe');
    if (read.kind === 'unreadable') throw new Refusal(read.sentence);
    const converted = convert(read.text, { catalogue: builtInCatalogue, name: options.get('name') });
    if (converted.kind === 'nothing') throw new Refusal(`${shown} cannot be converted. ${converted.message}`);
    const out = options.get('out');
    if (out !== undefined) {
      const target = { file: path.resolve(out), shown: slashes(out) };
      const written = await writeTarget(target, converted.text, { force: options.has('force'), sources: source === undefined ? [] : [source] });
      if (written.kind === 'not-written') throw new Refusal(written.sentence);
    }
    if (options.has('json')) terminal.out(convertJson(converted));
    else if (out === undefined) terminal.out(converted.text);
    for (const sentence of [...converted.notices, convertSummary(converted), ...convertDoubts(converted)]) terminal.say(printable(sentence));
    if (out !== undefined) terminal.say(printable(`Wrote ${slashes(out)}.`));
    return 0;
  },
};
