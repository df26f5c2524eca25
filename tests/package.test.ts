/** What people install: exactly the files that are listed here, of a size that is worth its download, and working alone. */
import { unzipSync } from 'fflate';
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = path.join(import.meta.dirname, '..');
const { version, bin } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as { version: string; bin: { proofsheet: string } };
const to = mkdtempSync(path.join(tmpdir(), 'proofsheet-packages-'));
const VSIX = `proofsheet-${version}.vsix`;
const TGZ = `proofsheet-${version}.tgz`;
const MOST_BYTES = { [VSIX]: 1_500_000, [TGZ]: 500_000 };
const text = new TextDecoder();
const read = (file: string): Buffer => readFileSync(path.join(to, file));

let extension: Readonly<Record<string, Uint8Array>> = {};
let commandLine: Readonly<Record<string, Uint8Array>> = {};

beforeAll(() => {
  execFileSync(process.execPath, [path.join(root, '.config', 'package.mjs'), '--to', to], { stdio: 'pipe' });
  extension = unzipSync(read(VSIX));
  commandLine = untar(gunzipSync(read(TGZ)));
});
afterAll(() => rmSync(to, { recursive: true, force: true }));

describe('the extension', () => {
  const namedByManifest = (): readonly string[] => {
    const manifest = JSON.stringify({ ...JSON.parse(text.decode(extension['extension/package.json'])) as object, files: [] });
    return [...new Set([...manifest.matchAll(/"(?:\.\/)?((?:dist|syntaxes)\/[^"]+)"/g)].map(([, file]) => `extension/${file!}`))];
  };

  it('has these files and no others', () => {
    expect(Object.keys(extension).sort()).toEqual([
      '[Content_Types].xml',
      'extension.vsixmanifest',
      'extension/LICENSE.txt',
      'extension/changelog.md',
      'extension/dist/extension.browser.js',
      'extension/dist/extension.cjs',
      'extension/dist/licences.txt',
      'extension/dist/preview.css',
      'extension/dist/preview.js',
      'extension/dist/server.browser.features.js',
      'extension/dist/server.browser.findings.js',
      'extension/dist/server.browser.js',
      'extension/dist/server.cjs',
      'extension/dist/server.features.cjs',
      'extension/dist/server.findings.cjs',
      'extension/grammar/README.md',
      'extension/package.json',
      'extension/readme.md',
      'extension/server/core/checks/README.md',
      'extension/server/core/constants.md',
      'extension/server/core/ingredients/README.md',
      'extension/syntaxes/language-configuration.json',
      'extension/syntaxes/markdown.tmLanguage.json',
      'extension/syntaxes/proofsheet.schema.json',
      'extension/syntaxes/proofsheet.tmLanguage.json',
      'extension/syntaxes/snippets.json',
      // Pictures come and go with the manifest; none may be in that it does not name, such as those of the README.
      ...namedByManifest().filter((file) => file.includes('/pictures/')),
    ].sort());
  });

  it('has every file that its manifest and its own code name', () => {
    expect(namedByManifest()).toEqual(expect.arrayContaining(['extension/dist/extension.cjs', 'extension/syntaxes/pictures/icon.png']));
    for (const file of namedByManifest()) expect(Object.keys(extension)).toContain(file);
    for (const [code, file] of [['extension.cjs', 'server.cjs'], ['extension.browser.js', 'server.browser.js'], ['extension.cjs', 'preview.css'],
      ['server.cjs', 'server.findings.cjs'], ['server.cjs', 'server.features.cjs'], ['server.browser.js', 'server.browser.findings.js'], ['server.browser.js', 'server.browser.features.js']]) {
      expect(text.decode(extension[`extension/dist/${code}`]), code).toContain(file);
    }
  });

  it('tells where it runs: beside the files, in a browser too, in folders that nobody has said to trust', () => {
    const manifest = JSON.parse(text.decode(extension['extension/package.json'])) as Record<string, unknown>;
    expect(manifest).toMatchObject({
      main: './dist/extension.cjs',
      browser: './dist/extension.browser.js',
      extensionKind: ['workspace'],
      capabilities: { untrustedWorkspaces: { supported: true }, virtualWorkspaces: { supported: true } },
    });
    for (const key of ['private', 'scripts', 'devDependencies', 'dependencies', 'bin']) expect(manifest).not.toHaveProperty(key);
    expect(text.decode(extension['extension.vsixmanifest'])).toContain('ExtensionKind" Value="workspace,web"');
  });

  it('has an icon of the size that is asked for', () => {
    const icon = Buffer.from(extension['extension/syntaxes/pictures/icon.png']!);
    expect([icon.readUInt32BE(16), icon.readUInt32BE(20)]).toEqual([128, 128]);
  });

  it('has each check on the line of the page that findings lead to', () => {
    const headings = (page: string): string[] => page.split('\n').map((line) => (line.startsWith('## ') ? line : ''));
    const packed = headings(text.decode(extension['extension/server/core/checks/README.md']));
    expect(packed).toEqual(headings(readFileSync(path.join(root, 'server', 'core', 'checks', 'README.md'), 'utf8').replaceAll('\r\n', '\n')));
    expect(packed.filter((line) => line !== '').length).toBeGreaterThan(50);
  });

  it('has pages whose links lead somewhere', () => {
    for (const [page, bytes] of Object.entries(extension).filter(([file]) => file.endsWith('.md'))) {
      const links = [...text.decode(bytes).matchAll(/\]\(((?![a-z]+:|#)[^)\s#]+)/g)].map(([, link]) => link!);
      for (const link of links) expect(Object.keys(extension), page).toContain(path.posix.join(path.posix.dirname(page), link));
    }
  });
});

describe('the command line', () => {
  it('has these files and no others', () => {
    expect(Object.keys(commandLine).sort()).toEqual([
      'package/LICENSE', 'package/README.md', 'package/dist/cli.check.cjs', 'package/dist/cli.cjs', 'package/dist/cli.verbs.cjs', 'package/dist/licences.txt', 'package/package.json',
    ]);
  });

  it('runs from a folder with nothing else in it', () => {
    for (const [file, bytes] of Object.entries(commandLine)) {
      mkdirSync(path.dirname(path.join(to, file)), { recursive: true });
      writeFileSync(path.join(to, file), bytes);
    }
    const run = (...args: string[]): string =>
      execFileSync(process.execPath, [path.join(to, 'package', bin.proofsheet), ...args], { cwd: to, encoding: 'utf8', env: {} });
    expect(run('--version')).toBe(`${version}\n`);
    expect(run('sheet', path.join(root, 'samples', 'country-loaf.bake'))).toMatch(/bread flour +\d/);
    // In threads of its own, and with the reasons that only the command line ships.
    const samples = ['country-loaf', 'knots', 'seeded-tin'].map((name) => path.join(root, 'samples', `${name}.bake`));
    const [one, two] = ['1', '2'].map((threads) => run('check', '--format', 'sarif', '--threads', threads, ...samples));
    expect(two).toBe(one);
    expect(one).toContain('"text": "Salt tightens gluten');
  });

  it('asks npm for nothing and can be published', () => {
    const manifest = JSON.parse(text.decode(commandLine['package/package.json'])) as Record<string, unknown>;
    expect(manifest).toMatchObject({ name: 'proofsheet', version, bin: { proofsheet: 'dist/cli.cjs' }, engines: { node: expect.any(String) as string } });
    for (const key of ['private', 'dependencies', 'devDependencies', 'scripts', 'main']) expect(manifest).not.toHaveProperty(key);
  });
});

it.each([VSIX, TGZ])('%s is small enough', (file) => {
  expect(read(file).length).toBeLessThanOrEqual(MOST_BYTES[file]!);
});

it.each(['America/New_York', 'Asia/Tokyo'])('gives the same bytes for the same sources, in %s too', (zone) => {
  const again = path.join(to, path.basename(zone));
  execFileSync(process.execPath, [path.join(root, '.config', 'package.mjs'), '--to', again], { stdio: 'pipe', env: { ...process.env, TZ: zone } });
  for (const file of [VSIX, TGZ]) expect(readFileSync(path.join(again, file)).equals(read(file)), file).toBe(true);
});

it('says in both packages what their reader can do, and nothing of the source folder', () => {
  for (const readme of [extension['extension/readme.md'], commandLine['package/README.md']].map((bytes) => text.decode(bytes))) {
    expect(readme).toContain('proofsheet check country.bake');
    expect(readme).not.toMatch(/\n{3}|<!-- |<picture|samples\/|DEVELOPERS|npm (run|install|start|test)|node dist\/cli|\]\((?!https?:|#)/);
  }
  expect(text.decode(commandLine['package/README.md'])).not.toContain('checks/README.md');
});

it('gives the licence of every library whose code is in', () => {
  for (const licences of [extension['extension/dist/licences.txt'], commandLine['package/dist/licences.txt']].map((bytes) => text.decode(bytes))) {
    const named = [...licences.matchAll(/^-{80}\n\n(\S+) \d/gm)].map(([, name]) => name);
    expect(named).toEqual(expect.arrayContaining(['chevrotain', 'lodash-es', 'morphdom', 'temporal-polyfill', 'vscode-jsonrpc']));
    expect(licences).toMatch(/Apache License/);
  }
});

it('is named in the README by the names it has', () => {
  const readme = readFileSync(path.join(root, 'README.md'), 'utf8');
  expect(new Set([...readme.matchAll(/proofsheet-[\d.]+\.\w+/g)].map(([name]) => name))).toEqual(new Set([TGZ, VSIX]));
});

/** The files of a tar archive as npm writes it: headers of 512 bytes, contents in blocks of 512. */
function untar(tar: Buffer): Record<string, Uint8Array> {
  const files: Record<string, Uint8Array> = {};
  for (let at = 0; tar[at] !== 0 && at < tar.length;) {
    const field = (from: number, length: number): string => tar.toString('utf8', at + from, at + from + length).replace(/\0.*$/s, '');
    const bytes = parseInt(field(124, 12), 8);
    files[field(0, 100)] = tar.subarray(at + 512, at + 512 + bytes);
    at += 512 + Math.ceil(bytes / 512) * 512;
  }
  return files;
}
