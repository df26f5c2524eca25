import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { baseName, canonicalUri, relativeUse, resolveUse } from '../../server/project/uris';

const root = 'file:///home/ines/stall';
const from = `${root}/loaves/rye.bake`;
const use = (path: string, roots: readonly string[] = [root], file = from) => {
  const result = resolveUse(file, path, roots);
  return result.kind === 'file' ? result.uri : result.problem;
};

describe('what a use path means', () => {
  it.each([
    ['pantry.bake', `${root}/loaves/pantry.bake`],
    ['./pantry.bake', `${root}/loaves/pantry.bake`],
    ['../pantry.bake', `${root}/pantry.bake`],
    ['..\\pantry.bake', `${root}/pantry.bake`],
    ['sweet/../pantry.bake', `${root}/loaves/pantry.bake`],
    ['pão de mel.bake', `${root}/loaves/p%C3%A3o%20de%20mel.bake`],
    ['漢 👩‍🍳.bake', `${root}/loaves/%E6%BC%A2%20%F0%9F%91%A9%E2%80%8D%F0%9F%8D%B3.bake`],
    ['a?b#c.bake', `${root}/loaves/a%3Fb%23c.bake`],
    // An escape in a path is a name with a per cent sign, not a way up.
    ['%2e%2e/x.bake', `${root}/loaves/%252e%252e/x.bake`],
    ['..%2f..%2fx.bake', `${root}/loaves/..%252f..%252fx.bake`],
  ])('%s is a file', (path, uri) => expect(use(path)).toBe(uri));

  it.each([
    ['../../pantry.bake', 'outside'],
    ['..\\..\\pantry.bake', 'outside'],
    ['../../stall-2/pantry.bake', 'outside'],
    ['/etc/pantry.bake', 'outside'],
    ['\\\\host\\share\\pantry.bake', 'outside'],
    ['C:/pantry.bake', 'outside'],
    ['c:\\pantry.bake', 'outside'],
    ['file:///home/ines/stall/pantry.bake', 'outside'],
    ['https://example.org/pantry.bake', 'outside'],
    ['../../../../../../../../x.bake', 'outside'],
    ['pantry.txt', 'not-bake'],
    ['pantry', 'not-bake'],
    ['rye.bake', 'itself'],
    ['../loaves/rye.bake', 'itself'],
    ['', 'not-found'],
    ['pan\u0000try.bake', 'not-found'],
  ])('%s is refused: %s', (path, problem) => expect(use(path)).toBe(problem));

  it('stays in the folder of a file that lies in no workspace folder', () => {
    expect(use('pantry.bake', [])).toBe(`${root}/loaves/pantry.bake`);
    expect(use('../pantry.bake', [])).toBe('outside');
    expect(use('../pantry.bake', ['file:///elsewhere'])).toBe('outside');
  });

  it('does not take a folder whose name only begins alike for the workspace', () => {
    expect(use('../../stall-2/x.bake', [root, 'file:///home/ines/stall-2'])).toBe('outside');
  });

  it('knows a Windows folder under either spelling', () => {
    const windows = 'file:///c%3A/stall/loaves/rye.bake';
    expect(use('../pantry.bake', ['file:///C:/stall'], windows)).toBe('file:///c%3A/stall/pantry.bake');
    expect(use('../../pantry.bake', ['file:///C:/stall'], windows)).toBe('outside');
    expect(use('../../../d:/pantry.bake', ['file:///C:/stall'], windows)).toBe('outside');
  });

  it('keeps to the scheme and host of the file', () => {
    expect(use('pantry.bake', ['vscode-vfs://github/me/stall'], 'vscode-vfs://github/me/stall/rye.bake'))
      .toBe('vscode-vfs://github/me/stall/pantry.bake');
    expect(use('pantry.bake', [], 'untitled:Untitled-1')).toBe('untitled:pantry.bake');
  });

  it('never leaves the workspace, whatever the path', () => {
    const pieces = fc.constantFrom('..', '.', '', 'a', '%2e%2e', '..%2f', 'c:', '\\', '..\\', '/', 'x.bake', '漢', '\u0000', 'file://', '?', '#', '…');
    fc.assert(fc.property(fc.array(pieces, { maxLength: 8 }), fc.constantFrom('/', '\\', ''), (names, separator) => {
      const result = resolveUse(from, `${names.join(separator)}/x.bake`, [root]);
      if (result.kind === 'file') {
        expect(new URL(result.uri).pathname.startsWith('/home/ines/stall/')).toBe(true);
        expect(canonicalUri(result.uri)).toBe(result.uri);
      }
    }));
  });
});

describe('spelling of URIs', () => {
  it.each([
    ['file:///C:/stall/rye.bake', 'file:///c%3A/stall/rye.bake'],
    ['file:///c%3a/stall/rye.bake', 'file:///c%3A/stall/rye.bake'],
    ['FILE:///a/b%20c.bake', 'file:///a/b%20c.bake'],
    ["file:///a/it's (new).bake", 'file:///a/it%27s%20%28new%29.bake'],
    ['file:///a/%ZZ.bake', 'file:///a/%25ZZ.bake'],
    ['untitled:Untitled-1', 'untitled:Untitled-1'],
    ['not a uri', 'not a uri'],
  ])('%s', (uri, spelled) => {
    expect(canonicalUri(uri)).toBe(spelled);
    expect(canonicalUri(spelled)).toBe(spelled);
  });

  it('names the file', () => expect(baseName('file:///a/b%20c.bake')).toBe('b c.bake'));
});

describe('the path to write', () => {
  it.each([
    [`${root}/loaves/pantry.bake`, 'pantry.bake'],
    [`${root}/pantry.bake`, '../pantry.bake'],
    [`${root}/sweet/b%20c.bake`, '../sweet/b c.bake'],
    [from, undefined],
    ['file:///home/ines/other/x.bake', undefined],
    [`${root}/x.txt`, undefined],
  ])('to %s', (to, path) => expect(relativeUse(from, to, [root])).toBe(path));
});
