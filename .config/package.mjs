// `npm run package`: makes what is given to people out of dist/, with no network. The extension is a .vsix, the command
// line a .tgz that npm installs. Each is put together in a folder of its own, so that nothing gets in that is not listed.
//   node .config/package.mjs [--to FOLDER]
import { createVSIX } from '@vscode/vsce';
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { filesOf } from './bundles.mjs';
import { textFor } from './package-pages.mjs';

const root = path.join(import.meta.dirname, '..');
const manifest = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));

/**
 * The time of every file in the .vsix, so that the same sources give the same file: the one that npm gives files of a
 * package. A zip has the time of the local clock, so that is what stays the same.
 */
const FILE_TIME_SECONDS = String(new Date(1985, 9, 26, 8, 15).getTime() / 1000);

const extension = {
  place: 'extension',
  mostBytes: 1_500_000,
  // Not for those who install it: how to build and bundle it, and the lock that keeps the source folder from being published.
  manifest: without(manifest, ['private', 'sideEffects', 'scripts', 'devDependencies', 'bin']),
  files: [
    'README.md', 'CHANGELOG.md', 'LICENSE',
    ...filesNamedBy(manifest), // its code, colours, pictures
    ...filesOf('dist/server.cjs'), ...filesOf('dist/server.browser.js'),
    'dist/preview.js', 'dist/preview.css', 'dist/licences.txt',
    // Findings lead to the page of checks, and that one to where its numbers come from.
    'grammar/README.md', 'server/core/checks/README.md', 'server/core/constants.md', 'server/core/ingredients/README.md',
  ],
};

const commandLine = {
  place: 'command line',
  mostBytes: 500_000,
  manifest: {
    ...Object.fromEntries(['name', 'version', 'description', 'keywords', 'license', 'bin'].map((key) => [key, manifest[key]])),
    engines: { node: manifest.engines.node },
  },
  files: ['README.md', 'LICENSE', ...filesOf('dist/cli.cjs'), 'dist/licences.txt'],
};

/** Writes the extension to `to/proofsheet-VERSION.vsix` and says its path. */
export async function packExtension(to) {
  const packagePath = path.join(to, `${manifest.name}-${manifest.version}.vsix`);
  process.env.SOURCE_DATE_EPOCH = FILE_TIME_SECONDS;
  await staged(extension, (cwd) => createVSIX({
    cwd, packagePath,
    dependencies: false, // everything is bundled
    allowMissingRepository: true, // there is none yet; links that need one have been taken out of the pages
    rewriteRelativeLinks: false,
  }));
  return smallEnough(packagePath, extension.mostBytes);
}

/** Writes the command line to `to/proofsheet-VERSION.tgz` and says its path. */
export async function packCommandLine(to) {
  await staged(commandLine, (cwd) => {
    const options = ['--pack-destination', to, '--offline', '--ignore-scripts', '--silent'];
    const { status, stderr, error } = spawnSync('npm', ['pack', ...options], { cwd, encoding: 'utf8', shell: process.platform === 'win32' });
    if (status !== 0) throw new Error(`npm pack failed: ${error?.message ?? stderr}`);
  });
  return smallEnough(path.join(to, `${manifest.name}-${manifest.version}.tgz`), commandLine.mostBytes);
}

/** The file again, unless it has grown past what is worth its download. */
function smallEnough(file, mostBytes) {
  const { size } = statSync(file);
  if (size <= mostBytes) return file;
  throw new Error(`${path.basename(file)} has ${size} bytes, more than ${mostBytes}: slow to install and to start. ` +
    'Is dist/ built with --dev? Otherwise take out what is not needed, or raise the limit here and in tests/package.test.ts.');
}

/** Lays the listed files out in a folder, lets `pack` make a package of them, and takes the folder away again. */
async function staged({ place, manifest, files }, pack) {
  const folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-package-'));
  try {
    for (const file of files) {
      const [from, to] = [path.join(root, file), path.join(folder, file)];
      if (!existsSync(from)) throw new Error(`${file} is missing. ${file.startsWith('dist/') ? 'npm run build makes it.' : ''}`);
      mkdirSync(path.dirname(to), { recursive: true });
      if (file.endsWith('.md')) writeFileSync(to, textFor(place, file, readFileSync(from, 'utf8'), files));
      else cpSync(from, to);
    }
    writeFileSync(path.join(folder, 'package.json'), `${JSON.stringify({ ...manifest, files }, undefined, 2)}\n`);
    await pack(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What VS Code itself reads, by the paths in the manifest. */
function filesNamedBy({ main, browser, icon, contributes }) {
  const named = JSON.stringify([main, browser, icon, contributes]).matchAll(/"(?:\.\/)?((?:dist|syntaxes)\/[^"]+)"/g);
  return [...new Set([...named].map(([, file]) => file))];
}

function without(object, keys) {
  return Object.fromEntries(Object.entries(object).filter(([key]) => !keys.includes(key)));
}

if (process.argv[1] === import.meta.filename) {
  const { values: { to } } = parseArgs({ options: { to: { type: 'string', default: root } } });
  mkdirSync(to, { recursive: true });
  for (const pack of [packExtension, packCommandLine]) {
    const file = await pack(path.resolve(to));
    console.log(`${path.basename(file).padEnd(28)} ${(statSync(file).size / 1024).toFixed(0).padStart(6)} KB`);
  }
}
