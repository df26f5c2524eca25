// Bundles everything that ships into dist/. `--watch` rebuilds on change; `--dev` leaves names readable and programs in one file.
import { build, context } from 'esbuild';
import { rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundles } from './bundles.mjs';
import { bundledPackages, licencesOf } from './licences.mjs';
import { buildInParts } from './parts.mjs';

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
};

rmSync(path.join(root, 'dist'), { recursive: true, force: true });
const metafiles = [];
for (const { entry, outfile, parts, options } of bundles) {
  const inOne = { ...common, ...options, entryPoints: [entry], outfile };
  if (watch) await (await context(inOne)).watch();
  else if (dev || parts === undefined) metafiles.push((await build(inOne)).metafile);
  else metafiles.push(...await buildInParts({ ...common, ...options }, { entry, outfile, parts }));
}
for (const [file, { bytes }] of metafiles.flatMap(({ outputs }) => Object.entries(outputs))) {
  if (!file.endsWith('.map')) console.log(`${file.padEnd(32)} ${(bytes / 1024).toFixed(0).padStart(6)} KB`);
}
if (!watch) writeFileSync(path.join(root, 'dist', 'licences.txt'), licencesOf(root, bundledPackages(metafiles)));
