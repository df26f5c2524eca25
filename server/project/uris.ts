/**
 * What a `use` path means: a file by its path relative to the file that names it, inside the workspace folder only.
 *
 * A path in a `.bake` file is text that anyone may have written, so it is taken apart as names of folders and nothing
 * else: no scheme, no drive, no absolute path, no way up and out of the folder, no escapes that a later decoder could
 * turn into one.
 */
import { rememberedByText } from './remembered';

export type UseProblem = 'not-found' | 'outside' | 'itself' | 'not-bake';

/** A URI taken apart: scheme and authority in lower case, folder and file names decoded. */
interface Parts {
  readonly prefix: string;
  readonly segments: readonly string[];
}

/** The scheme of a URI in lower case, or '' when there is none. */
export function schemeOf(uri: string): string {
  return /^([A-Za-z][A-Za-z0-9+.-]*):/.exec(uri)?.[1]?.toLowerCase() ?? '';
}

/**
 * One spelling for each file: editors differ in what they escape (`c%3A`, `C:`), and a file must be found under any.
 * The spelling is the one that VS Code uses.
 */
export const canonicalUri: (uri: string) => string = rememberedByText(uri => {
  const parts = takeApart(uri);
  return parts === undefined ? uri : putTogether(parts);
});

/** The last name in a URI, decoded: `pantry.bake`. */
export function baseName(uri: string): string {
  return takeApart(uri)?.segments.at(-1) ?? uri;
}

/**
 * The file that `use "path"` in the file `from` names, or why there can be none. Whether it exists is not asked here.
 *
 * `roots` are the workspace folders. A file that lies in none of them (or when there are none) may use what lies
 * beside and under it.
 */
export function resolveUse(
  from: string, path: string, roots: readonly string[],
): { readonly kind: 'file'; readonly uri: string } | { readonly kind: 'problem'; readonly problem: UseProblem } {
  const problem = (what: UseProblem) => ({ kind: 'problem', problem: what }) as const;
  const base = takeApart(from);
  const folder = base?.segments.slice(0, -1);
  if (base === undefined || folder === undefined || path.trim() === '') return problem('not-found');
  // A backslash separates folders on Windows, so it may not smuggle a way out there: it separates everywhere.
  const names = path.replaceAll('\\', '/').split('/');
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(path) || names[0] === '') return problem('outside');
  if (/[\u0000-\u001f\u007f]/.test(path)) return problem('not-found');

  const segments = [...folder];
  for (const name of names) {
    if (name === '' || name === '.') continue;
    if (name !== '..') segments.push(name);
    else if (segments.pop() === undefined) return problem('outside');
  }
  const home = rootsOf(base, roots);
  const allowed = home.length > 0 ? home : [{ prefix: base.prefix, segments: folder }];
  if (!allowed.some(root => contains(root, { prefix: base.prefix, segments }))) return problem('outside');
  if (!/\.bake$/i.test(segments.at(-1) ?? '')) return problem('not-bake');
  const uri = putTogether({ prefix: base.prefix, segments });
  return uri === putTogether(base) ? problem('itself') : { kind: 'file', uri };
}

/** The path by which the file `from` would use the file `to`, or undefined when it may not. */
export function relativeUse(from: string, to: string, roots: readonly string[]): string | undefined {
  const start = takeApart(from);
  const goal = takeApart(to);
  if (start === undefined || goal === undefined || start.prefix !== goal.prefix) return undefined;
  const folder = start.segments.slice(0, -1);
  let shared = 0;
  while (shared < folder.length && shared < goal.segments.length - 1 && folder[shared] === goal.segments[shared]) shared++;
  const path = [...folder.slice(shared).map(() => '..'), ...goal.segments.slice(shared)].join('/');
  const back = resolveUse(from, path, roots);
  return back.kind === 'file' && back.uri === putTogether(goal) ? path : undefined;
}

/**
 * Where a file called `name` may be that counts for the file `uri`: beside it, then in each folder above, up to the outermost
 * workspace folder that holds it. One that lies in none has only what is beside it, and a page that lies nowhere has nothing.
 */
export function besideAndAbove(uri: string, name: string, roots: readonly string[]): readonly string[] {
  const file = takeApart(uri);
  if (file === undefined || !file.prefix.endsWith('/')) return [];
  const depths = rootsOf(file, roots).map(root => root.segments.length);
  const folder = file.segments.slice(0, -1);
  const top = depths.length === 0 ? folder.length : Math.min(...depths);
  const found: string[] = [];
  for (let depth = folder.length; depth >= top; depth--) {
    found.push(putTogether({ prefix: file.prefix, segments: [...folder.slice(0, depth), name] }));
  }
  return found;
}

/** The innermost of the folders that holds the file, as it is spelled there; undefined when none does. */
export function homeOf(uri: string, folders: readonly string[]): string | undefined {
  const file = takeApart(uri);
  const homes = file === undefined ? [] : folders.flatMap(folder => {
    const parts = takeApart(folder);
    return parts !== undefined && contains(parts, file) ? [{ folder, depth: parts.segments.length }] : [];
  });
  return homes.sort((a, b) => b.depth - a.depth)[0]?.folder;
}

/** The workspace folders that hold the file. */
function rootsOf(file: Parts, roots: readonly string[]): readonly Parts[] {
  return roots.flatMap(root => {
    const parts = takeApart(root);
    return parts !== undefined && contains(parts, file) ? [parts] : [];
  });
}

function contains(root: Parts, file: Parts): boolean {
  return root.prefix === file.prefix
    && file.segments.length > root.segments.length
    && root.segments.every((name, i) => name === file.segments[i]);
}

const takeApart: (uri: string) => Parts | undefined = rememberedByText(uri => {
  const match = /^([A-Za-z][A-Za-z0-9+.-]*):(\/\/[^/?#]*)?([^?#]*)(\?[^#]*)?/.exec(uri);
  if (match === null) return undefined;
  const [, scheme = '', authority = '', path = '', query = ''] = match;
  const segments: string[] = [];
  for (const raw of path.split('/')) {
    const name = decoded(raw);
    if (name === '' || name === '.') continue;
    if (name === '..') segments.pop();
    else segments.push(segments.length === 0 && /^[A-Za-z]:$/.test(name) ? name.toLowerCase() : name);
  }
  // `untitled:Untitled-1` has no folders at all, and a query is part of what a virtual file is.
  const rooted = path.startsWith('/') ? '/' : '';
  return { prefix: `${scheme.toLowerCase()}:${authority.toLowerCase()}${rooted}${query === '' ? '' : `\u0000${query}`}`, segments };
});

function putTogether({ prefix, segments }: Parts): string {
  const [start = '', query = ''] = prefix.split('\u0000');
  return start + segments.map(encoded).join('/') + query;
}

function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name; // a stray per cent sign: the name as it stands
  }
}

/** As VS Code escapes it: everything but letters, digits, `-`, `.`, `_`, `~`. */
function encoded(name: string): string {
  try {
    return encodeURIComponent(name).replace(/[!'()*]/g, c => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
  } catch {
    return encodeURIComponent(name.replace(/[\uD800-\uDFFF]/g, '\uFFFD')); // half of a surrogate pair
  }
}
