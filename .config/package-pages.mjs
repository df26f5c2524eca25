// Pages as they read in a package: what makes sense in the source folder only is left out, and so are links to files that
// are not there.
import path from 'node:path';

/** `<!-- only: folder, extension -->` and `<!-- /only -->`, on lines of their own or within one, and what is between. */
const ONLY = /^[ \t]*<!-- only: ([\w, ]+) -->\n([\s\S]*?)^[ \t]*<!-- \/only -->\n|<!-- only: ([\w, ]+) -->(.*?)<!-- \/only -->/gm;

/**
 * @param {'extension' | 'command line'} place where it will be read; a mark may also name `folder`, the source
 * @param {string} page its path in the package
 * @param {string} text as it stands in the source
 * @param {readonly string[]} files of the package
 */
export function textFor(place, page, text, files) {
  const kept = text.replaceAll('\r\n', '\n').replace(ONLY, (_, block, blockText, inline, inlineText) =>
    (block ?? inline).split(', ').includes(place) ? (blockText ?? inlineText) : '');
  if (/<!-- \/?only/.test(kept)) throw new Error(`${page} has an "only" mark without its other half.`);
  return kept.replace(/\n{3,}/g, '\n\n').replace(/\[([^\]]+)\]\(([^)\s]+)\)/g, (link, words, target) => {
    const [file] = target.split('#');
    if (/^[a-z]+:/.test(target) || (file === '' && target.startsWith('#'))) return link;
    // Where an extension's README is shown, no link to a file of the extension works.
    return page !== 'README.md' && files.includes(path.posix.join(path.posix.dirname(page), file)) ? link : words;
  });
}
