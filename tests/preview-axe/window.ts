/** The preview's page as it ships, in Chromium, with a small stand-in for the panel: the server's answers, and no editor. */
import path from 'node:path';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { FromPage, PanelState, ToPage } from '../../client/preview/messages';
import { pageOf } from '../../client/preview/skeleton';
import { sizesIn, withSize } from '../../client/preview/sizes';
import { previewAt } from '../../server/features/preview';
import type { SizeOf } from '../../server/requests';
import { marked } from '../features/marked';
import type { Theme } from './themes';

const root = path.join(import.meta.dirname, '..', '..');
const ADDRESS = 'http://preview.localhost';
const URI = 'file:///stall/main.bake';

/** Saturday 14 March 2026, eight in the morning in Lisbon. */
export const USUAL = { anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) }, zone: 'Europe/Lisbon' } as const;

interface Built {
  readonly script: string;
  readonly style: string;
}

let built: Promise<Built> | undefined;

/** Script and style, bundled once. */
async function bundle(): Promise<Built> {
  const { outputFiles } = await build({
    absWorkingDir: root, entryPoints: { preview: 'client/preview/page.ts' }, bundle: true, write: false, outdir: 'out', format: 'iife', platform: 'browser', target: 'es2022', logLevel: 'silent',
  });
  const ending = (end: string): string => outputFiles.find((file) => file.path.endsWith(end))?.text ?? '';
  return { script: ending('.js'), style: ending('.css') };
}

export interface Opened {
  readonly page: Page;
  /** What the page has asked for, in order. */
  readonly said: readonly FromPage[];
  /** Refused by the page's policy, or failed. */
  readonly trouble: string[];
  /** What the page has given to be kept for after a reload. */
  state(): Promise<PanelState>;
  /** Another text, as if it had been typed. */
  write(text: string): Promise<void>;
}

export interface OpenOptions {
  readonly theme?: Theme;
  readonly width?: number;
  readonly height?: number;
  readonly sizes?: PanelState['sizes'];
}

/** Opens the preview of a marked text. */
export async function openPreview(browser: Browser, source: string, { theme, width = 900, height = 1200, sizes: before = [] }: OpenOptions = {}): Promise<Opened> {
  built ??= bundle();
  const { script, style } = await built;
  const page = await browser.newPage({ viewport: { width, height }, reducedMotion: 'reduce' });
  const said: FromPage[] = [];
  const trouble: string[] = [];
  page.on('console', (message) => message.type() === 'error' && trouble.push(message.text()));
  page.on('pageerror', (error) => trouble.push(String(error)));

  let text = source;
  let sizes = before;
  let wanted: SizeOf | undefined;
  let shown: string | undefined;
  const show = async (): Promise<void> => {
    const { file, offset } = await marked(text);
    const answer = previewAt(file, offset, USUAL, undefined, { sizes: sizesIn(sizes, URI), ...(wanted && { wanted }) });
    if (answer?.isRefused !== true) wanted = undefined;
    if (answer) sizes = withSize(sizes, URI, answer.formulaName, answer.size);
    const message: ToPage = answer === undefined ? { type: 'nothing' } : { type: 'show', html: answer.html, same: answer.formulaName === shown, state: { uri: URI, line: answer.line, sizes } };
    shown = answer?.formulaName;
    await page.evaluate((sent) => window.postMessage(sent, '*'), message);
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  };
  await page.exposeFunction('toHost', async (message: FromPage) => {
    said.push(message);
    if (message.type === 'size') wanted = { formula: shown ?? '', size: message.size };
    if (message.type === 'do' && message.action === 'size-back') sizes = withSize(sizes, URI, shown ?? '', undefined);
    if (message.type === 'loaded' || message.type === 'size' || message.type === 'do') await show();
  });
  await page.addInitScript(() => {
    const own = window as unknown as { toHost(message: unknown): void; kept: unknown; acquireVsCodeApi: unknown };
    own.acquireVsCodeApi = () => ({ postMessage: (message: unknown) => own.toHost(message), setState: (state: unknown) => (own.kept = state) });
  });
  await page.route('**/*', (route) => {
    const { pathname } = new URL(route.request().url());
    const variables = Object.entries(theme?.colours ?? {}).map(([name, value]) => `--vscode-${name}: ${value};`).join(' ');
    const bodies: Readonly<Record<string, readonly [type: string, body: string]>> = {
      // The editor puts its colours on the page's root; here they come with the style.
      '/': ['text/html', pageOf({ source: ADDRESS, style: `${ADDRESS}/preview.css`, script: `${ADDRESS}/preview.js` }).replace('<body>', `<body class="${theme?.bodyClass ?? ''}">`)],
      '/preview.css': ['text/css', `${style}\nhtml { ${variables} }`],
      '/preview.js': ['text/javascript', script],
    };
    const [contentType, body] = bodies[pathname] ?? ['text/plain', ''];
    return pathname in bodies ? route.fulfill({ contentType, body }) : route.abort();
  });
  await page.goto(ADDRESS);
  await page.locator('h1').waitFor();
  return {
    page, said, trouble,
    state: () => page.evaluate(() => (window as unknown as { kept: PanelState }).kept),
    async write(next) {
      text = next;
      await show();
    },
  };
}
