// What is tested is the extension as people install it: packed, and unpacked again as VS Code does.
import { unzipSync } from 'fflate';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { packExtension } from '../../../.config/package.mjs';
import config from '../e2e.config.mjs';

/** Makes the package out of `dist/` and lays its files out in `config.extension`. */
export async function unpackExtension() {
  const temp = mkdtempSync(path.join(tmpdir(), 'e2e-package-'));
  try {
    const files = unzipSync(readFileSync(await packExtension(temp)), { filter: ({ name }) => name.startsWith('extension/') });
    rmSync(config.extension, { recursive: true, force: true });
    for (const [name, bytes] of Object.entries(files)) {
      const file = path.join(config.extension, name.slice('extension/'.length));
      mkdirSync(path.dirname(file), { recursive: true });
      writeFileSync(file, bytes);
    }
  } finally {
    rmSync(temp, { recursive: true, force: true });
  }
}
