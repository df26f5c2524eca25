/** The git extension is asked once a file and commit, and the server is told what it answers. */
import { describe, expect, it } from 'vitest';
import { committedText, CommittedTexts, whyNone, type FileUri, type GitApi, type GitRepository } from '../../client/committed';

const uri = (path: string, scheme = 'file'): FileUri => ({ scheme, fsPath: path, toString: () => `${scheme}://${path}` });

/** A repository at `/bakery` with one commit after another. */
function fakeGit() {
  const files = new Map([['/bakery/a.bake', 'first']]);
  const asked: string[] = [];
  const listeners = new Set<() => void>();
  const openListeners = new Set<(repository: GitRepository) => void>();
  let commit: string | undefined = 'c1';
  let isOpen = true;
  const repository: GitRepository = {
    state: {
      get HEAD() { return { ...(commit !== undefined && { commit }) }; },
      onDidChange: (listener) => {
        listeners.add(listener);
        return { dispose: () => listeners.delete(listener) };
      },
    },
    show: (ref, path) => {
      asked.push(`${ref} ${path}`);
      const text = files.get(path);
      return text === undefined ? Promise.reject(new Error('not in HEAD')) : Promise.resolve(text);
    },
  };
  const git: GitApi = {
    getRepository: ({ fsPath }) => (isOpen && fsPath.startsWith('/bakery/') ? repository : null),
    onDidOpenRepository: (listener) => {
      openListeners.add(listener);
      return { dispose: () => openListeners.delete(listener) };
    },
  };
  const settle = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
  return {
    git, asked, listeners, settle,
    close: () => (isOpen = false),
    open: () => {
      isOpen = true;
      openListeners.forEach((listener) => listener(repository));
    },
    saved: () => listeners.forEach((listener) => listener()),
    commit: (id: string, text: string) => {
      commit = id;
      files.set('/bakery/a.bake', text);
      listeners.forEach((listener) => listener());
    },
  };
}

function texts(git: GitApi | undefined) {
  const told: string[] = [];
  let changes = 0;
  const committed = new CommittedTexts(() => Promise.resolve(git), (of, text) => told.push(`${of} ${text ?? 'none'}`), () => (changes += 1));
  return { committed, told, changes: () => changes };
}

describe('what the server is told', () => {
  it('the committed text of a file that is opened, once, however often the file is saved', async () => {
    const { git, asked, saved, settle } = fakeGit();
    const { committed, told } = texts(git);
    await committed.opened(uri('/bakery/a.bake'));
    await committed.opened(uri('/bakery/a.bake'));
    for (let i = 0; i < 5; i += 1) saved();
    await settle();
    expect(told).toEqual(['file:///bakery/a.bake first']);
    expect(asked).toEqual(['HEAD /bakery/a.bake']);
  });

  it('another text after another commit, nothing after one that left the file alone', async () => {
    const { git, commit, settle } = fakeGit();
    const { committed, told, changes } = texts(git);
    await committed.opened(uri('/bakery/a.bake'));
    commit('c2', 'second');
    await settle();
    commit('c3', 'second');
    await settle();
    expect(told).toEqual(['file:///bakery/a.bake first', 'file:///bakery/a.bake second']);
    expect(changes()).toBe(2);
  });

  it('nothing of files that are new, lie elsewhere or are on no disk', async () => {
    const { git, asked } = fakeGit();
    const { committed, told } = texts(git);
    for (const file of [uri('/bakery/new.bake'), uri('/else/a.bake'), uri('/bakery/a.bake', 'git'), uri('Untitled-1', 'untitled')]) await committed.opened(file);
    expect(told).toEqual([]);
    expect(asked).toEqual(['HEAD /bakery/new.bake']);
    const without = texts(undefined);
    await without.committed.opened(uri('/bakery/a.bake'));
    expect(without.told).toEqual([]);
  });

  it('a repository that the editor finds later', async () => {
    const { git, close, open, settle } = fakeGit();
    close();
    const { committed, told } = texts(git);
    await committed.opened(uri('/bakery/a.bake'));
    expect(told).toEqual([]);
    open();
    await settle();
    expect(told).toEqual(['file:///bakery/a.bake first']);
  });

  it('all of it again when a server has begun anew, and nothing more of a file that is closed', async () => {
    const { git, commit, listeners, settle } = fakeGit();
    const { committed, told } = texts(git);
    await committed.opened(uri('/bakery/a.bake'));
    committed.send();
    committed.closed(uri('/bakery/a.bake'));
    commit('c2', 'second');
    await settle();
    expect(told).toEqual(['file:///bakery/a.bake first', 'file:///bakery/a.bake first', 'file:///bakery/a.bake none']);
    committed.dispose();
    expect(listeners.size).toBe(0);
  });
});

it('why there is nothing to compare with is said in a sentence', async () => {
  const { git } = fakeGit();
  const why = async (api: GitApi | undefined, file: FileUri): Promise<string> => {
    const found = await committedText(api, file);
    return found.kind === 'none' ? whyNone(found.why) : found.text;
  };
  expect(await why(git, uri('/bakery/a.bake'))).toBe('first');
  expect(await why(git, uri('/bakery/b.bake'))).toBe('This file is not committed yet, so there is no committed version to compare it with.');
  expect(await why(git, uri('/else/b.bake'))).toBe('This file is in no git repository, so there is no committed version to compare it with.');
  expect(await why(git, uri('Untitled-1', 'untitled'))).toMatch(/^This file is in no git repository/);
  expect(await why(undefined, uri('/bakery/a.bake'))).toMatch(/^There is no git in this editor/);
});
