/** The settings of the editor: for the workspace, and for each of its folders, which may have their own. */
import { settingsFrom } from '../core/settings/read';
import type { Settings } from '../core/settings/settings';
import type { Connection } from './wire/connection';
import { MOST_BACKGROUND_FILES } from './workspace';

export interface Configuration {
  /** Of files in no folder of the workspace. */
  readonly editor: Settings;
  /** By URI of a folder. */
  readonly folders: ReadonlyMap<string, Settings>;
  /** How many files are looked through while they are not open. */
  readonly mostBackgroundFiles: number;
}

const SECTION = 'proofsheet';

/** Asks the editor. */
export async function askedFrom(connection: Connection, roots: readonly string[]): Promise<Configuration> {
  const [whole, ...each] = await connection.workspace.getConfiguration([{ section: SECTION }, ...roots.map(scopeUri => ({ section: SECTION, scopeUri }))]);
  return configurationOf(whole, new Map(roots.map((root, i) => [root, each[i]])));
}

/** What an editor has sent, or answered. What it leaves unsaid, or cannot be read, is as if it had not been set. */
export function configurationOf(whole: unknown, folders: ReadonlyMap<string, unknown> = new Map()): Configuration {
  const editor = settingsFrom(whole);
  const text = JSON.stringify(editor);
  const most = isRecord(whole) ? whole['mostBackgroundFiles'] : undefined;
  return {
    editor,
    folders: new Map([...folders].map(([root, value]) => {
      const own = settingsFrom(value);
      // Folders that are set alike share what is computed from it.
      return [root, JSON.stringify(own) === text ? editor : own];
    })),
    mostBackgroundFiles: typeof most === 'number' && Number.isSafeInteger(most) && most >= 0 ? most : MOST_BACKGROUND_FILES,
  };
}

/** Whether two say the same. */
export function sameConfiguration(a: Configuration, b: Configuration): boolean {
  const text = ({ editor, folders, mostBackgroundFiles }: Configuration): string => {
    const isOwn = [...folders.values()].some(settings => settings !== editor);
    return JSON.stringify([editor, isOwn ? [...folders] : [], mostBackgroundFiles]);
  };
  return text(a) === text(b);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
