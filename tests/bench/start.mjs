// How long until the server answers its first request, until the command line has checked a file; how large what ships is.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundles, filesOf } from '../../.config/bundles.mjs';
import { Client } from './lsp.mjs';
import { at, ms, sort, times } from './numbers.mjs';
import { formulas } from './texts.mjs';

export async function startUp({ root, server, echo, temp, row }) {
  const initialized = async (file) => {
    const took = [];
    for (let i = 0; i < 9; i++) {
      const client = await Client.start(file);
      took.push(client.initializeMs);
      await client.stop();
    }
    return at(sort(took), 0.5);
  };
  const against = (what, ours, floor) => row(what, ms(ours), ms(floor), times(ours, floor));
  against('start → initialize answered, median of 9', await initialized(server), await initialized(echo));
  const empty = path.join(temp, 'empty.cjs');
  const sample = path.join(temp, 'one.bake');
  writeFileSync(empty, '');
  writeFileSync(sample, formulas(26));
  const run = (...args) => at(sort(Array.from({ length: 9 }, () => {
    const started = performance.now();
    spawnSync(process.execPath, args);
    return performance.now() - started;
  })), 0.5);
  const dist = path.join(root, 'dist');
  const cli = path.join(dist, 'cli.cjs');
  if (existsSync(cli)) against('proofsheet check, one formula, whole process', run(cli, 'check', sample), run(empty));
  for (const file of bundles.flatMap(({ outfile }) => filesOf(outfile).map((name) => path.basename(name)))) {
    const full = path.join(dist, file);
    if (existsSync(full)) row(`size of ${file}`, `${Math.round(statSync(full).size / 1024)} KB`);
  }
}
