/** Writes a new file, whole or not at all, and never over another one unless that was asked for. */
import { mkdir, open, realpath, rename, stat, unlink } from 'node:fs/promises';
import path from 'node:path';
import { cannotRead, replaceFile, slashes } from './files';

export type Written = { readonly kind: 'written' } | { readonly kind: 'not-written'; readonly sentence: string };

export interface Target {
  /** Absolute. */
  readonly file: string;
  /** As the person typed it, or what they typed and the name in that folder. */
  readonly shown: string;
}

/**
 * The text goes into a file beside the target, which then takes its name. A file that is there stays, unless `force` is given; one of
 * `sources` stays whatever is given: what is exported must not be lost to its own export.
 */
export async function writeTarget({ file, shown }: Target, text: string, { force, sources }: { readonly force: boolean; readonly sources: readonly string[] }): Promise<Written> {
  const not = (sentence: string): Written => ({ kind: 'not-written', sentence });
  try {
    const there = await stat(file).catch(() => undefined);
    if (there?.isDirectory() === true) return not(`${shown} is a folder.`);
    if (there !== undefined) {
      const real = await realpath(file);
      const originals = await Promise.all(sources.map((source) => realpath(source).catch(() => source)));
      if (originals.includes(real)) return not(`${shown} is the file that is exported, and is left as it is. Give another name to --out.`);
      if (!force) return not(`${shown} is there already, and is left as it is. Give another name, or --force to write over it.`);
      await replaceFile(file, text);
      return { kind: 'written' };
    }
    const fresh = path.join(path.dirname(file), `.${path.basename(file)}.${String(process.pid)}.tmp`);
    const handle = await open(fresh, 'wx');
    try {
      try {
        await handle.writeFile(text, 'utf8');
        await handle.sync();
      } finally {
        await handle.close();
      }
      await rename(fresh, file);
    } catch (error) {
      await unlink(fresh).catch(() => undefined);
      throw error;
    }
    return { kind: 'written' };
  } catch (error) {
    return not(error instanceof Error && 'code' in error && error.code === 'ENOENT' ? `There is no folder ${slashes(path.dirname(shown))}.` : cannotRead(shown, error));
  }
}

/** Whether what was typed is a folder: one that is there, or a name with a slash behind it, which is then made. */
export async function isFolder(typed: string): Promise<boolean> {
  if (/[/\\]$/.test(typed)) {
    await mkdir(path.resolve(typed), { recursive: true });
    return true;
  }
  return (await stat(path.resolve(typed)).catch(() => undefined))?.isDirectory() === true;
}
