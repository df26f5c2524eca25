// What a check says for its page of documentation (why it matters, its source, text that trips it) is most of its file and of
// no use to a server: the page ships beside it. So it is left out of the bundles, and with it what writes the page.
import { readFile } from 'node:fs/promises';
import path from 'node:path';

const FOLDER = path.join('server', 'core', 'checks');
/** By file: the fields of its objects that only the page, the settings schema and the tests read. */
const UNREAD = [
  { files: /[\\/]core[\\/]checks[\\/]rules[\\/][\w-]+\.ts$/, fields: new Set(['why', 'source', 'trips', 'tripsTimes', 'passes', 'fixed']), depth: 2 },
  { files: /[\\/]core[\\/]checks[\\/]thresholds\.ts$/, fields: new Set(['source']), depth: 3 },
];

/** What a check says of itself that goes into a report for other programs, too. */
const REASONS = new Set(['why', 'source']);

/** For esbuild: leaves out the fields, and takes the lines of the page's headings from the page. */
export const shipped = shippedBut(new Set());

/** The same for the command line, whose SARIF says why a check matters and where its limit comes from. */
export const shippedWithReasons = shippedBut(REASONS);

function shippedBut(kept) {
  return { name: 'shipped', setup: (build) => setup(build, kept) };
}

function setup(build, kept) {
  const root = build.initialOptions.absWorkingDir ?? process.cwd();
  for (const { files, fields, depth } of UNREAD) {
    const cut = new Set([...fields].filter((field) => !kept.has(field)));
    if (cut.size > 0) build.onLoad({ filter: files }, async ({ path: file }) => ({ contents: await without(await readFile(file, 'utf8'), file, cut, depth), loader: 'ts' }));
  }
  build.onLoad({ filter: /[\\/]core[\\/]checks[\\/]heading-lines\.ts$/ }, async () => {
    const page = path.join(root, FOLDER, 'README.md');
    const lines = (await readFile(page, 'utf8')).split('\n').flatMap((line, index) => (line.startsWith('## ') ? [[line.slice(3), index + 1]] : []));
    return { contents: `const lines = new Map(${JSON.stringify(lines)});\nexport const headingLines = () => lines;`, loader: 'js', watchFiles: [page] };
  });
}

/** The source without these fields of object literals that lie at most so deep in one another. */
async function without(source, file, fields, most) {
  const { default: ts } = await import('typescript'); // slow to read, and not everybody who asks what ships bundles it
  const cuts = [];
  const visit = (node, depth) => {
    const isObject = ts.isObjectLiteralExpression(node);
    if (isObject && depth < most) {
      for (const [index, field] of node.properties.entries()) {
        if (ts.isPropertyAssignment(field) && ts.isIdentifier(field.name) && fields.has(field.name.text)) {
          cuts.push([field.getFullStart(), node.properties[index + 1]?.getFullStart() ?? node.properties.end]);
        }
      }
    }
    ts.forEachChild(node, child => visit(child, isObject ? depth + 1 : depth));
  };
  visit(ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true), 0);
  return cuts.reduceRight((text, [start, end]) => text.slice(0, start) + text.slice(end), source);
}
