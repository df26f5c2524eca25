// Bundles everything that ships into dist/. `--watch` rebuilds on change, `--dev` leaves names readable.
import { shipped, shippedWithReasons } from './shipped.mjs';
import { buildInParts } from './parts.mjs';
import { build, context } from 'esbuild';
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundledPackages, licencesOf } from './licences.mjs';

const root = path.join(import.meta.dirname, '..');
const watch = process.argv.includes('--watch');
const dev = watch || process.argv.includes('--dev');

const common = {
  absWorkingDir: root,
  bundle: true,
  minify: !dev,
  sourcemap: dev ? 'linked' : false,
  legalComments: 'none',
  logLevel: 'warning',
  metafile: true,
  charset: 'utf8',
  plugins: [shipped],
};
const node = { ...common, platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };
const browser = { ...common, platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };

/** What is read when: the beginning of a connection, then all that findings need, then each thing that an editor may ask for. */
const serverParts = (...more) => ({ findings: ['server/lsp/serve-all.ts', ...more], features: [] });

/** The words of the command line, then a check, then the other verbs. */
const CLI_PARTS = { check: ['server/cli/check.ts', 'server/cli/checking/threads.ts'], verbs: [] };

/** What each file is, and where it runs. Entries whose source is not there are a mistake, so nothing is skipped silently. */
const bundles = [
  { ...node, plugins: [shippedWithReasons], entryPoints: { cli: 'server/cli.ts' }, outdir: 'dist', outExtension: { '.js': '.cjs' }, banner: { js: '#!/usr/bin/env node' }, parts: CLI_PARTS },
  { ...node, entryPoints: { server: 'server/node.ts' }, outdir: 'dist', outExtension: { '.js': '.cjs' }, parts: serverParts('server/lsp/disk.ts') },
  { ...browser, format: 'iife', entryPoints: { 'server.browser': 'server/browser.ts' }, outdir: 'dist', parts: serverParts() },
  { ...node, entryPoints: { extension: 'client/node.ts' }, outdir: 'dist', outExtension: { '.js': '.cjs' }, external: ['vscode'] },
  { ...browser, format: 'cjs', entryPoints: { 'extension.browser': 'client/browser.ts' }, outdir: 'dist', external: ['vscode'] },
  { ...browser, format: 'iife', entryPoints: { preview: 'client/preview/page.ts' }, outdir: 'dist' },
];

rmSync(path.join(root, 'dist'), { recursive: true, force: true });
const metafiles = [];
for (const { parts, ...bundle } of bundles) {
  const source = Object.values(bundle.entryPoints)[0];
  if (!existsSync(path.join(root, source))) {
    if (dev) continue; // a room under construction
    throw new Error(`${source} is missing`);
  }
  if (watch) {
    await (await context(bundle)).watch();
  } else if (parts !== undefined && !dev) {
    const { entryPoints, outdir, outExtension, ...options } = bundle;
    metafiles.push(...await buildInParts(options, { entry: source, outfile: `${outdir}/${Object.keys(entryPoints)[0]}${outExtension?.['.js'] ?? '.js'}`, parts }));
  } else {
    metafiles.push((await build(bundle)).metafile);
  }
}
for (const [file, { bytes }] of metafiles.flatMap(({ outputs }) => Object.entries(outputs))) {
  if (!file.endsWith('.map')) console.log(`${file.padEnd(28)} ${(bytes / 1024).toFixed(0).padStart(6)} KB`);
}
if (!watch) writeFileSync(path.join(root, 'dist', 'licences.txt'), licencesOf(root, bundledPackages(metafiles)));
