// The licences of the libraries that are bundled: each asks that its text goes along with copies of its code.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The folders of the packages that a build has taken code from, by what esbuild says of its outputs. What was looked at
 * and dropped does not count.
 *
 * @param {readonly import('esbuild').Metafile[]} metafiles of every bundle
 * @returns {string[]} relative to the root, sorted
 */
export function bundledPackages(metafiles) {
  const inputs = metafiles.flatMap(({ outputs }) => Object.values(outputs).flatMap(({ inputs }) => Object.entries(inputs)));
  const folders = inputs.flatMap(([file, { bytesInOutput }]) =>
    bytesInOutput > 0 ? (/^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file) ?? []) : []);
  return [...new Set(folders)].sort();
}

/**
 * Name, version and the whole licence of each package, heading by heading.
 *
 * @throws where a package has no licence file, so that none goes out without
 */
export function licencesOf(root, folders) {
  const texts = folders.map((folder) => {
    const { name, version } = JSON.parse(readFileSync(path.join(root, folder, 'package.json'), 'utf8'));
    const files = readdirSync(path.join(root, folder)).filter((file) => /^(licen[cs]e|notice|third-?party)[^/]*$/i.test(file)).sort();
    if (!files.some((file) => /^licen[cs]e/i.test(file))) throw new Error(`${folder} has no file with its licence.`);
    return [`${name} ${version}`, ...files.map((file) => readFileSync(path.join(root, folder, file), 'utf8').trim())].join('\n\n');
  });
  return `Proofsheet contains code of these libraries.\n\n${texts.map((text) => `${'-'.repeat(80)}\n\n${text}\n\n`).join('')}`.replaceAll('\r\n', '\n');
}
