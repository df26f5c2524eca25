// Every file that ships, what it is made of and where it runs.
import { fileOf } from './parts.mjs';
import { shipped, shippedWithReasons } from './shipped.mjs';

const node = { platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'], plugins: [shipped] };
const browser = { platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'], plugins: [shipped] };

/**
 * Parts of a program, in the order in which they are read, with the modules that begin each; see parts.mjs. Of the server: the
 * beginning of a connection, then all that findings need, then each thing that an editor may ask for. Of the command line: its
 * words, then a check, then the other verbs.
 */
const SERVER_PARTS = { findings: ['server/lsp/serve-all.ts'], features: [] };
const NODE_SERVER_PARTS = { ...SERVER_PARTS, findings: [...SERVER_PARTS.findings, 'server/lsp/disk.ts'] };
const CLI_PARTS = { check: ['server/cli/check.ts', 'server/cli/checking/threads.ts'], verbs: [] };

/** Options of esbuild without the entry and the place; `parts` are left out where the program is one file. */
export const bundles = [
  { entry: 'server/cli.ts', outfile: 'dist/cli.cjs', parts: CLI_PARTS, options: { ...node, plugins: [shippedWithReasons], banner: { js: '#!/usr/bin/env node' } } },
  { entry: 'server/node.ts', outfile: 'dist/server.cjs', parts: NODE_SERVER_PARTS, options: node },
  { entry: 'server/browser.ts', outfile: 'dist/server.browser.js', parts: SERVER_PARTS, options: { ...browser, format: 'iife' } },
  { entry: 'client/node.ts', outfile: 'dist/extension.cjs', options: { ...node, external: ['vscode'] } },
  { entry: 'client/browser.ts', outfile: 'dist/extension.browser.js', options: { ...browser, format: 'cjs', external: ['vscode'] } },
  { entry: 'client/preview/page.ts', outfile: 'dist/preview.js', options: { ...browser, format: 'iife' } },
];

/** The files of a program: its own and those of its parts. */
export function filesOf(outfile) {
  const { parts = {} } = bundles.find((bundle) => bundle.outfile === outfile);
  return ['', ...Object.keys(parts)].map((part) => fileOf(outfile, part));
}
