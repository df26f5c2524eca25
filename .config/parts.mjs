// Bundles a program in parts, so that what is needed first is read first. The first part is the program's own file; each other
// part holds modules that `import()` names, and is read with those before it when one of them is asked for first. All code is in
// one part only: what two parts share is in the earlier one.
//
// esbuild splits only modules of the new kind, which a worker of VS Code (a classic script) cannot read. So it splits (1), and
// bundles what came of that once more, part by part (2).
import { build } from 'esbuild';
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * @param {import('esbuild').BuildOptions} options of a bundle, without its entry, format and place
 * @param {object} program
 * @param {string} program.entry its source
 * @param {string} program.outfile its file; the part `x` of `dist/a.cjs` is `dist/a.x.cjs`
 * @param {Readonly<Record<string, readonly string[]>>} program.parts names of parts in order, with the modules that each is for;
 *   the last has all those that are named nowhere
 * @returns metafiles: what is in each file
 */
export async function buildInParts({ banner, ...options }, { entry, outfile, parts }) {
  const modules = await modulesByPart(options, entry, parts);
  const { chunks, entries } = await split(options, entry, modules);
  const files = ['', ...modules.keys()].map((part) => fileOf(outfile, part));
  const metafiles = [];
  for (const [index, file] of files.entries()) {
    const own = [...chunks.values()].filter((chunk) => chunk.part === index);
    const { outputFiles: [{ text }], metafile } = await build({
      ...options, format: 'cjs', write: false, outfile: file,
      stdin: { contents: contentsOf(own, entries[index], index), resolveDir: options.absWorkingDir },
      plugins: [linked({ chunks, index, modules, loader: loaderOf(options.platform, files) })],
    });
    const whole = index === 0 ? `${banner?.js ?? ''}${banner ? '\n' : ''}${onItsOwn(text)}` : asPart(text, options.platform);
    const output = metafile.outputs[Object.keys(metafile.outputs)[0]];
    // Of the second bundling esbuild knows the chunks only; what is in those, it said of the first.
    const inputs = Object.assign({}, ...own.map((chunk) => chunk.inputs));
    metafiles.push({ outputs: { [file]: { ...output, inputs, bytes: Buffer.byteLength(whole) } } });
    mkdirSync(path.join(options.absWorkingDir, path.dirname(file)), { recursive: true });
    writeFileSync(path.join(options.absWorkingDir, file), whole);
  }
  return metafiles;
}

/** The file of a part of a program. */
export function fileOf(outfile, part) {
  return part === '' ? outfile : outfile.replace(/(\.\w+)$/, `.${part}$1`);
}

/** By part, the modules that `import()` names anywhere in the program, in the same order every time. */
async function modulesByPart(options, entry, parts) {
  const { metafile } = await build({ ...options, entryPoints: [entry], format: 'esm', write: false, outfile: 'scan.js' });
  const named = new Set(Object.values(metafile.inputs).flatMap(({ imports }) => imports.filter(({ kind }) => kind === 'dynamic-import').map((one) => one.path)));
  const said = new Set(Object.values(parts).flat());
  for (const file of said) if (!named.has(file)) throw new Error(`No import() in ${entry} names ${file}.`);
  const last = Object.keys(parts).at(-1);
  return new Map(Object.entries(parts).map(([part, files]) => [part, [...files, ...(part === last ? [...named].filter((file) => !said.has(file)).sort() : [])]]));
}

/** (1) The chunks by their names, each with the part that it belongs to: the first that reaches it. */
async function split(options, entry, modules) {
  const root = options.absWorkingDir;
  const { outputFiles, metafile } = await build({
    ...options, minify: false, format: 'esm', splitting: true, write: false, outdir: 'split', outExtension: { '.js': '.js' }, chunkNames: '[name]-[hash]',
    entryPoints: { start: entry, ...Object.fromEntries([...modules.keys()].map((part) => [part, `part:${part}`])) },
    plugins: [...options.plugins, {
      name: 'entries of parts',
      setup(setup) {
        setup.onResolve({ filter: /^part:/ }, ({ path: name }) => ({ path: name.slice(5), namespace: 'part' }));
        setup.onLoad({ filter: /.*/, namespace: 'part' }, ({ path: part }) => ({
          contents: modules.get(part).map((file, index) => `export * as m${index} from ${JSON.stringify(`./${file}`)};`).join('\n'), resolveDir: root,
        }));
        setup.onResolve({ filter: /^\./ }, async ({ path: wanted, kind, importer, resolveDir }) => {
          if (kind !== 'dynamic-import') return undefined;
          const found = await setup.resolve(wanted, { kind: 'import-statement', importer, resolveDir });
          return { path: `module:${path.relative(root, found.path).replaceAll('\\', '/')}`, external: true };
        });
      },
    }],
  });
  const texts = new Map(outputFiles.map((file) => [path.basename(file.path), file.text]));
  const chunks = new Map(Object.entries(metafile.outputs).map(([file, { imports, inputs }]) => {
    const name = path.basename(file);
    return [name, { name, text: texts.get(name), inputs, imports: imports.filter(({ kind, external }) => kind === 'import-statement' && !external).map((one) => path.basename(one.path)), part: Infinity }];
  }));
  const entries = ['start', ...modules.keys()].map((part) => `${part}.js`);
  const mark = (name, part) => {
    const chunk = chunks.get(name);
    if (chunk.part <= part) return;
    chunk.part = part;
    for (const each of chunk.imports) mark(each, part);
  };
  entries.forEach(mark);
  return { chunks, entries };
}

/** What a part is bundled from: its chunks, given away by their names, and its modules. */
function contentsOf(own, entry, index) {
  const given = own.filter(({ name }) => name !== entry);
  const imports = given.map(({ name }, at) => `import * as c${at} from ${JSON.stringify(name)};`).join('\n');
  const names = given.map(({ name }, at) => `${JSON.stringify(name)}: c${at}`).join(', ');
  if (index === 0) return `${imports}\nimport { give } from 'loader';\nimport ${JSON.stringify(entry)};\ngive({ ${names} });`;
  return `${imports}\nexport * as modules from ${JSON.stringify(entry)};\nexport const chunks = { ${names} };`;
}

/** (2) Joins the chunks of a part. Chunks of earlier ones are those of the running program, and so are modules that `import()` names. */
function linked({ chunks, index, modules, loader }) {
  const placeOf = (file) => {
    for (const [at, files] of [...modules.values()].entries()) if (files.includes(file)) return [at + 1, `m${files.indexOf(file)}`];
    throw new Error(`${file} is in no part.`);
  };
  const text = (chunk) => {
    const linked = chunk.text.replace(/\bimport\("module:([^"]+)"\)/g, (_, file) => {
      const [part, name] = placeOf(file);
      return `Promise.resolve().then(() => partOf(${part}).${name})`;
    });
    return linked === chunk.text ? linked : `import { partOf } from 'loader';\n${linked}`;
  };
  return {
    name: 'links of a part',
    setup(setup) {
      setup.onResolve({ filter: /\.js$/ }, ({ path: wanted }) => {
        const chunk = chunks.get(path.basename(wanted));
        if (chunk === undefined) return undefined;
        return chunk.part === index ? { path: chunk.name, namespace: 'chunk' } : { path: `chunk:${chunk.name}`, external: true };
      });
      setup.onLoad({ filter: /.*/, namespace: 'chunk' }, ({ path: name }) => ({ contents: text(chunks.get(name)), loader: 'js', resolveDir: setup.initialOptions.absWorkingDir }));
      setup.onResolve({ filter: /^loader$/ }, () => (index === 0 ? { path: 'loader', namespace: 'loader' } : { path: 'loader', external: true }));
      setup.onLoad({ filter: /.*/, namespace: 'loader' }, () => ({ contents: loader, loader: 'js' }));
    },
  };
}

/** Reads parts, in order, when they are needed. It is in the first part. */
function loaderOf(platform, files) {
  const names = JSON.stringify(files.slice(1).map((file) => path.basename(file)));
  return `
    const names = ${names}, parts = [], chunks = {};
    const read = ${platform === 'node' ? NODE_READ : BROWSER_READ};
    export const give = more => void Object.assign(chunks, more);
    export function partOf(number) {
      while (parts.length < number) {
        const part = read(names[parts.length])(id => id === 'loader' ? { partOf } : chunks[id.slice(6)]);
        parts.push(part.modules);
        give(part.chunks);
      }
      return parts[number - 1];
    }`;
}

/** In two steps: of a path that it could guess, esbuild would bundle every file. */
const NODE_READ = 'name => { const file = "./" + name; return require(file); }';
/** A worker that is made from a blob does not know where its script lies; the editor says it. */
const BROWSER_READ = 'name => { importScripts(new URL(name, globalThis.proofsheetCode ?? location.href).href); return globalThis.proofsheetPart; }';

/** The names of a part stay inside it. */
function onItsOwn(text) {
  return `(()=>{${text}})();\n`;
}

/** A part is a function of what gives the chunks of others by name. */
function asPart(text, platform) {
  const from = platform === 'node' ? 'id=>/^(loader$|chunk:)/.test(id)?link(id):require(id)' : 'link';
  return `${platform === 'node' ? 'module.exports' : 'globalThis.proofsheetPart'}=link=>((module,require)=>{${text}\nreturn module.exports})({exports:{}},${from});\n`;
}
