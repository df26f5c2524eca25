// Pages as they read in a package: what makes sense in the source folder only is left out, so are links to files that are
// not there, and the command has the name that it is installed by.
import path from 'node:path';

/** `<!-- only: folder, extension -->` and `<!-- /only -->`, on lines of their own or within one, and what is between. */
const ONLY = /^[ \t]*<!-- only: ([\w, ]+) -->\n([\s\S]*?)^[ \t]*<!-- \/only -->\n(\n?)|<!-- only: ([\w, ]+) -->(.*?)<!-- \/only -->/gm;

/**
 * @param {'extension' | 'command line'} place where it will be read; a mark may also name `folder`, the source
 * @param {string} page its path in the package
 * @param {string} text as it stands in the source
 * @param {readonly string[]} files of the package
 */
export function textFor(place, page, text, files) {
  // Lines without a mark stay where they are: findings lead to a line of the page of checks.
  const kept = text.replaceAll('\r\n', '\n').replace(ONLY, (_, block, blockText, blank, inline, inlineText) =>
    !(block ?? inline).split(', ').includes(place) ? '' : block ? blockText + blank : inlineText);
  if (/<!-- \/?only/.test(kept)) throw new Error(`${page} has an "only" mark without its other half.`);
  return kept.replaceAll('node dist/cli.cjs', 'proofsheet').replace(/\[([^\]]+)\]\(([^)\s]+)\)/g, (link, words, target) => {
    const [file] = target.split('#');
    if (/^[a-z]+:/.test(target) || (file === '' && target.startsWith('#'))) return link;
    // Where an extension's README is shown, no link to a file of the extension works.
    return page !== 'README.md' && files.includes(path.posix.join(path.posix.dirname(page), file)) ? link : words;
  });
}
