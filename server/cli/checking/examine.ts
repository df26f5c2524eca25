/** Looks at one file after the other and says what was found as plain data, here or in a thread of its own. */
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import type { CheckedFile } from '../../output/findings';
import { reachOf } from '../../project/reach';
import { canonicalUri } from '../../project/uris';
import { uriOf, type Documents, type SettingsDocument } from '../documents';
import type { Source } from '../files';
import { isChanged, type ChangedFiles } from './changed';
import { findingsIn, settingsFindingsIn } from './placed';

/** What became of one file of the command line. */
export interface Examined {
  /** Why it cannot be read, in a sentence. */
  readonly unreadable?: string;
  /** What else there is to say of it. */
  readonly remark?: string;
  /** The settings that count for it, where they have something wrong or were named, and were not told before. */
  readonly settings?: CheckedFile;
  /** Undefined where only files that have changed are looked at, and it and all that it uses are as they were. */
  readonly file?: CheckedFile;
}

export interface Task {
  /** Folders that are the tops of projects. */
  readonly roots: readonly string[];
  /** Files as they were named on the command line. */
  readonly named: readonly string[];
  /** Only what has changed, and what uses it. */
  readonly changed: ChangedFiles | undefined;
}

export type Examine = (source: Source) => Promise<Examined>;

export function examiner(documents: Documents, { named, changed }: Task, stdin: Readable): Examine {
  const told = new Set<string>();
  const settingsOf = ({ shown, file }: SettingsDocument): CheckedFile | undefined => {
    const uri = canonicalUri(file.uri);
    if (told.has(uri)) return undefined;
    told.add(uri);
    // Nobody asked about settings that are in order.
    if (file.problems.length === 0 && !named.includes(shown)) return undefined;
    if (changed !== undefined && !isChanged(changed, fileURLToPath(file.uri))) return undefined;
    return { path: shown, uri, ...settingsFindingsIn(file) };
  };
  return async (source) => {
    const loaded = await documents.load(source, stdin);
    try {
      switch (loaded.kind) {
        case 'unreadable':
          return { unreadable: loaded.sentence };
        case 'settings': {
          const settings = settingsOf(loaded.settings);
          return settings === undefined ? {} : { settings };
        }
        case 'document': {
          const { document: { shown, file }, settings } = loaded;
          const itsSettings = settings && settingsOf(settings);
          const first = itsSettings === undefined ? {} : { settings: itsSettings };
          const isLookedAt = changed === undefined || source.file === undefined
            || reachOf(file, documents.project.roots).some((uri) => isChanged(changed, fileURLToPath(uri)));
          if (!isLookedAt) return first;
          return {
            ...first,
            ...(file.page?.fences.length === 0 && { remark: `${shown} has no \`\`\`bake fence, so nothing in it was checked.` }),
            file: { path: shown, uri: source.file === undefined ? '' : canonicalUri(uriOf(source)), ...findingsIn(file) },
          };
        }
      }
    } finally {
      documents.release(source);
    }
  };
}
