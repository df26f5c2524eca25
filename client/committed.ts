/** What the last commit has of the files that are open, asked of the git extension that comes with the editor: once a file and commit, never while somebody types. */

/** As much of that extension's interface as is needed here. */
export interface GitApi {
  getRepository(uri: FileUri): GitRepository | null;
  readonly onDidOpenRepository: (listener: (repository: GitRepository) => void) => { dispose(): void };
}

export interface GitRepository {
  readonly state: {
    readonly HEAD: { readonly commit?: string } | undefined;
    /** Comes with every save, too. */
    readonly onDidChange: (listener: () => void) => { dispose(): void };
  };
  show(ref: string, path: string): Promise<string>;
}

export interface FileUri {
  readonly scheme: string;
  readonly fsPath: string;
  toString(): string;
}

export type CommittedText =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'none'; readonly why: 'no git' | 'no repository' | 'no commit' };

/** The text that the last commit has of a file, or why there is none. */
export async function committedText(git: GitApi | undefined, uri: FileUri): Promise<CommittedText> {
  if (git === undefined) return { kind: 'none', why: 'no git' };
  const repository = uri.scheme === 'file' ? git.getRepository(uri) : null;
  if (repository === null) return { kind: 'none', why: 'no repository' };
  try {
    return { kind: 'text', text: (await repository.show('HEAD', uri.fsPath)).replace(/^\uFEFF/, '') };
  } catch {
    return { kind: 'none', why: 'no commit' }; // a file that is new, or a repository without a commit
  }
}

/** Why there is nothing to compare with, in a sentence. */
export function whyNone(why: Extract<CommittedText, { readonly kind: 'none' }>['why']): string {
  switch (why) {
    case 'no git':
      return 'There is no git in this editor (in a browser there is none, and the extension "Git" may be switched off), so the committed version cannot be read.';
    case 'no repository':
      return 'This file is in no git repository, so there is no committed version to compare it with.';
    case 'no commit':
      return 'This file is not committed yet, so there is no committed version to compare it with.';
  }
}

interface Open {
  readonly uri: FileUri;
  /** Of the commit that was asked last; undefined where none was yet. */
  commit: string | undefined;
  text: string | null;
}

/** Keeps the server told, for the files that are open. */
export class CommittedTexts {
  readonly #git: () => Promise<GitApi | undefined>;
  readonly #tell: (uri: string, text: string | null) => void;
  readonly #changed: () => void;
  readonly #open = new Map<string, Open>();
  readonly #heard = new Map<unknown, { dispose(): void }>();

  /** @param changed told when a commit, a checkout or the like has brought another committed text */
  constructor(git: () => Promise<GitApi | undefined>, tell: (uri: string, text: string | null) => void, changed: () => void) {
    this.#git = git;
    this.#tell = tell;
    this.#changed = changed;
  }

  async opened(uri: FileUri): Promise<void> {
    if (uri.scheme !== 'file' || this.#open.has(uri.toString())) return;
    this.#open.set(uri.toString(), { uri, commit: undefined, text: null });
    await this.#look(uri.toString());
  }

  closed(uri: FileUri): void {
    const one = this.#open.get(uri.toString());
    this.#open.delete(uri.toString());
    if (one !== undefined && one.text !== null) this.#tell(uri.toString(), null);
  }

  /** A server that has just begun knows none of them. */
  send(): void {
    for (const [uri, { text }] of this.#open) if (text !== null) this.#tell(uri, text);
  }

  dispose(): void {
    for (const heard of this.#heard.values()) heard.dispose();
    this.#heard.clear();
    this.#open.clear();
  }

  async #look(key: string): Promise<void> {
    const git = await this.#git();
    const one = this.#open.get(key);
    if (git === undefined || one === undefined) return;
    this.#hear(git, () => git.onDidOpenRepository((repository) => {
      this.#hear(repository, () => repository.state.onDidChange(() => void this.#lookAtAll()));
      void this.#lookAtAll();
    }));
    const repository = git.getRepository(one.uri);
    if (repository === null) return;
    this.#hear(repository, () => repository.state.onDidChange(() => void this.#lookAtAll()));
    const commit = repository.state.HEAD?.commit;
    if (commit === one.commit) return;
    one.commit = commit;
    const found = await committedText(git, one.uri);
    const text = found.kind === 'text' ? found.text : null;
    if (this.#open.get(key) !== one || one.commit !== commit || text === one.text) return;
    one.text = text;
    this.#tell(key, text);
    this.#changed();
  }

  async #lookAtAll(): Promise<void> {
    for (const key of [...this.#open.keys()]) await this.#look(key);
  }

  #hear(whom: unknown, listen: () => { dispose(): void }): void {
    if (!this.#heard.has(whom)) this.#heard.set(whom, listen());
  }
}
