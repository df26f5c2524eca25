// Starts a workbench that a browser can open. Two hosts:
//   server  code-server's VS Code server: the extension's "main" entry runs in a Node extension host
//   web     the VS Code web build from static files: its "browser" entry runs in a web worker
// Both resolve to { name, url, log(), stop() }, the server also to commit(message).
import { execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import config from '../e2e.config.mjs';
import { serverNode, serverRoot, webRoot } from './install-hosts.mjs';

/**
 * @param {'server' | 'web'} name
 * @param {{ suite?: boolean, open?: string, git?: boolean }} options suite: run the bundled suite at once; open: a file of the
 *   workspace to begin with; git: with git, and the workspace a repository with one commit. A browser has none, whatever is asked.
 */
export function startHost(name, options = {}) {
  return { server: startServerHost, web: startWebHost }[name](options);
}

// --- server -----------------------------------------------------------------------------------------------------

// Built-in extensions that start by themselves, reach for the network or slow the start, and are not under test.
const skippedBuiltins = [
  'GitHub.copilot-chat', 'vscode.git', 'vscode.github', 'vscode.github-authentication',
  'vscode.microsoft-authentication', 'vscode.debug-auto-launch', 'ms-vscode.js-debug',
  'ms-vscode.js-debug-companion', 'ms-vscode.vscode-js-profile-table', 'vscode.merge-conflict',
];

async function startServerHost({ suite = false, open, git = false }) {
  const temp = mkdtempSync(path.join(tmpdir(), 'e2e-'));
  const workspace = path.join(temp, 'workspace');
  const data = path.join(temp, 'data');
  cpSync(config.workspace, workspace, { recursive: true });
  const commit = (message) => gitIn(workspace, 'commit', '--quiet', '--all', '--message', message);
  if (git) {
    gitIn(workspace, 'init', '--quiet');
    gitIn(workspace, 'add', '.');
    commit('As the stall bakes');
  }
  // code-server keeps user settings on the server's disk (a stock VS Code server keeps them in the browser).
  mkdirSync(path.join(data, 'data', 'User'), { recursive: true });
  writeFileSync(path.join(data, 'data', 'User', 'settings.json'), JSON.stringify({ ...config.settings, ...(git && { 'git.enabled': true }) }));

  // The VS Code server itself, not code-server's wrapper: no password, no proxy, no configuration file.
  const server = spawn(serverNode, [
    path.join(serverRoot, 'out', 'server-main.js'),
    '--host', '127.0.0.1', '--port', '0', '--without-connection-token', '--accept-server-license-terms',
    '--server-data-dir', data,
    '--telemetry-level', 'off', '--disable-experiments', '--disable-workspace-trust',
    '--enable-smoke-test-driver', // a built VS Code ignores the extensionDevelopmentPath payload without this
  ], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      ...process.env,
      XDG_CACHE_HOME: path.join(temp, 'cache'), // the server stores a device id there
      VSCODE_SKIP_BUILTIN_EXTENSIONS: skippedBuiltins.filter((name) => !git || name !== 'vscode.git').join(),
      EXTENSIONS_GALLERY: '{}', // no marketplace
    },
  });

  const kill = () => server.kill('SIGKILL');
  process.once('exit', kill); // whatever happens to the runner

  let output = '';
  const port = await new Promise((resolve, reject) => {
    const onData = (chunk) => {
      output += chunk;
      const match = /agent listening on (\d+)/.exec(output);
      if (match) {
        resolve(match[1]);
      }
    };
    server.stdout.on('data', onData);
    server.stderr.on('data', onData);
    server.once('error', reject);
    server.once('exit', (code) => reject(new Error(`the server stopped with ${code}:\n${output}`)));
  });

  // The workbench uses the page's own host and port as the remote authority.
  const authority = `127.0.0.1:${port}`;
  const remote = (file) => `vscode-remote://${authority}${pathToFileURL(file).pathname}`;
  const payload = [['extensionDevelopmentPath', remote(config.extension)], ['skipWelcome', 'true']];
  if (suite) {
    payload.push(['extensionTestsPath', remote(config.suite)]);
  }
  if (open) payload.push(['openFile', remote(path.join(workspace, open))]);
  const query = new URLSearchParams({ folder: workspace, payload: JSON.stringify(payload) });

  return {
    name: 'server',
    url: `http://${authority}/?${query}`,
    log: () => output,
    commit,
    async stop() {
      if (server.exitCode === null && server.signalCode === null) {
        const exited = new Promise((resolve) => server.once('exit', resolve));
        server.kill('SIGTERM'); // ends its extension host too
        const timer = setTimeout(() => server.kill('SIGKILL'), 5000);
        await exited;
        clearTimeout(timer);
      }
      process.off('exit', kill);
      rmSync(temp, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** Runs git as somebody of the stall, whatever the machine's own settings are. */
function gitIn(folder, ...words) {
  const nobody = { GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_SYSTEM: '/dev/null' };
  execFileSync('git', ['-c', 'user.name=Tomas', '-c', 'user.email=tomas@example.invalid', ...words], { cwd: folder, env: { ...process.env, ...nobody }, stdio: ['ignore', 'ignore', 'inherit'] });
}

// --- web --------------------------------------------------------------------------------------------------------

const mime = {
  '.css': 'text/css', '.html': 'text/html', '.js': 'text/javascript', '.mjs': 'text/javascript',
  '.json': 'application/json', '.svg': 'image/svg+xml', '.wasm': 'application/wasm', '.ttf': 'font/ttf',
};

async function startWebHost({ suite = false, open }) {
  const mounts = {
    // The suite must seem to lie inside the extension: that is how the workbench picks the host to run it in.
    '/extension/.suite/': path.dirname(config.suite),
    '/extension/': config.extension,
    '/fixture-fs/': path.join(import.meta.dirname, 'fixture-fs'),
    '/': webRoot,
  };
  let output = '';

  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url, 'http://localhost');
    // Webviews and the worker extension host live on <uuid>.localhost, so they read across origins.
    response.setHeader('Access-Control-Allow-Origin', '*');
    response.setHeader('Cache-Control', 'no-store');
    try {
      if (pathname === '/') {
        response.setHeader('Content-Type', 'text/html');
        return response.end(page(request.headers.host));
      }
      if (pathname === '/workspace.json') {
        response.setHeader('Content-Type', 'application/json');
        return response.end(JSON.stringify(readTree(config.workspace)));
      }
      const mount = Object.keys(mounts).find((prefix) => pathname.startsWith(prefix));
      const file = path.join(mounts[mount], decodeURIComponent(pathname.slice(mount.length)));
      if (!file.startsWith(mounts[mount])) {
        throw new Error('outside');
      }
      const body = readFileSync(file);
      response.setHeader('Content-Type', mime[path.extname(file)] ?? 'application/octet-stream');
      response.end(body);
    } catch {
      output += `404 ${pathname}\n`;
      response.writeHead(404).end();
    }
  });

  function page(host) {
    const at = (folder) => ({ scheme: 'http', authority: host, path: folder });
    const configuration = {
      defaultLayout: open && { editors: [{ uri: { scheme: 'fixture', path: `/workspace/${open}` } }] },
      folderUri: { scheme: 'fixture', path: '/workspace' },
      additionalBuiltinExtensions: [at('/fixture-fs')],
      developmentOptions: {
        logLevel: 3, // info: below it, console output of the suite is dropped
        enableSmokeTestDriver: true,
        extensions: [at('/extension')],
        extensionTestsPath: suite ? at(`/extension/.suite/${path.basename(config.suite)}`) : undefined,
      },
      enableWorkspaceTrust: false,
      configurationDefaults: config.settings, // user settings would live in IndexedDB
      productConfiguration: {
        enableTelemetry: false,
        extensionEnabledApiProposals: { 'e2e.fixture-fs': ['fileSearchProvider'] },
        // The default is a host on the internet. Each webview needs an origin of its own: <uuid>.localhost.
        webviewContentExternalBaseUrlTemplate: `http://{{uuid}}.${host}/out/vs/workbench/contrib/webview/browser/pre/`,
      },
    };
    return readFileSync(path.join(webRoot, 'index.html'), 'utf8')
      .replace('{{WORKBENCH_WEB_CONFIGURATION}}', JSON.stringify(configuration).replaceAll('&', '&amp;').replaceAll('"', '&quot;'))
      .replace('{{WORKBENCH_AUTH_SESSION}}', '');
  }

  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    name: 'web',
    // Webviews are on <uuid>.vscode.localhost, which browsers count to the same site as vscode.localhost. Under plain
    // localhost they would be third parties, whose service workers are refused in Playwright's private contexts.
    url: `http://vscode.localhost:${server.address().port}/`,
    log: () => output,
    async stop() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

/** Every file of a folder as { 'sub/name': base64 }. */
function readTree(root) {
  const files = readdirSync(root, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(files.map((entry) => {
    const file = path.join(entry.parentPath, entry.name);
    return [path.relative(root, file).split(path.sep).join('/'), readFileSync(file, 'base64')];
  }));
}
