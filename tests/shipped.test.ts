/** What is left out of the bundles makes no difference to what they answer. */
import { build } from 'esbuild';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { shipped, shippedWithReasons } from '../.config/shipped.mjs';
import { parse } from '../grammar';
import { analyse } from '../server/core/analyse';
import { checks } from '../server/core/checks';
import type { Check } from '../server/core/checks/check';
import { docsUrl } from '../server/core/checks/documentation';
import { sectionsOf } from '../server/core/formula/sections';
import { builtInCatalogue } from '../server/core/ingredients/catalogue';
import { allRules } from '../server/output/rule';

const ROOT = path.join(import.meta.dirname, '..');

interface Bundle {
  readonly parse: typeof parse;
  readonly analyse: typeof analyse;
  readonly checks: readonly Check[];
  readonly docsUrl: typeof docsUrl;
  readonly sectionsOf: typeof sectionsOf;
  readonly builtInCatalogue: typeof builtInCatalogue;
}

const PARTS = `
  export { parse } from './grammar';
  export { analyse } from './server/core/analyse';
  export { checks } from './server/core/checks';
  export { docsUrl } from './server/core/checks/documentation';
  export { sectionsOf } from './server/core/formula/sections';
  export { builtInCatalogue } from './server/core/ingredients/catalogue';`;

async function bundled(contents = PARTS, plugin = shipped): Promise<{ readonly text: string; readonly bundle: Bundle }> {
  const { outputFiles } = await build({
    absWorkingDir: ROOT, stdin: { contents, resolveDir: ROOT, loader: 'ts' }, bundle: true, platform: 'node', format: 'cjs', mainFields: ['module', 'main'],
    outfile: path.join(tmpdir(), 'shipped.cjs'), write: false, logLevel: 'error', plugins: [plugin],
  });
  const text = outputFiles[0]!.text;
  const module = { exports: {} };
  new Function('module', 'exports', 'require', text)(module, module.exports, createRequire(import.meta.url));
  return { text, bundle: module.exports as Bundle };
}

describe('the bundles', () => {
  it('find in every example of a check what the sources find, and link to the same lines of the page', async () => {
    const { text, bundle } = await bundled();
    const findings = ({ parse: read, analyse: look, sectionsOf: cut, builtInCatalogue: catalogue }: Omit<Bundle, 'checks' | 'docsUrl'>, example: string) => (
      cut(read(example).blocks.map(({ block }) => block)).map(({ section }) => look(section, { catalogue, formulas: new Map(), measures: 'us', zone: 'Europe/Lisbon' }).findings)
    );
    expect(bundle.checks.map(({ code, severity, title, limits }) => ({ code, severity, title, names: Object.keys(limits ?? {}) })))
      .toEqual(checks.map(({ code, severity, title, limits }) => ({ code, severity, title, names: Object.keys(limits ?? {}) })));
    for (const { code, trips } of checks) {
      const example = trips.replace(/[«»]/g, '');
      expect(findings(bundle, example), code).toEqual(findings({ parse, analyse, sectionsOf, builtInCatalogue }, example));
      expect(bundle.docsUrl(code, 'file:///checks/README.md')).toBe(docsUrl(code, 'file:///checks/README.md'));
    }
    expect(bundle.checks.filter(check => 'trips' in check || 'why' in check).map(({ code }) => code)).toEqual([]);
    expect(text).not.toContain('A value several times the usual one is mostly a slipped decimal point');
  }, 60_000);

  it('of the command line say why a check matters and where its limits come from, for reports', async () => {
    const { text, bundle } = await bundled("export { allRules } from './server/output/rule';", shippedWithReasons);
    expect((bundle as unknown as { readonly allRules: typeof allRules }).allRules()).toEqual(allRules());
    expect(text).not.toContain('trips:');
  }, 60_000);

  it('link to headings that the page has', () => {
    const page = readFileSync(path.join(ROOT, 'server/core/checks/README.md'), 'utf8').split('\n');
    for (const { code } of checks) {
      const line = Number(/#L(\d+)$/.exec(docsUrl(code, 'file:///checks/README.md'))?.[1]);
      expect(page[line - 1]).toBe(`## ${code}`);
    }
  });
});
