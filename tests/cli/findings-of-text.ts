/** The findings of a text, as `check` hands them on. */
import { findingsIn } from '../../server/cli/checking/placed';
import type { CheckedFile } from '../../server/output/findings';
import { Project } from '../../server/project/project';

/** @param others texts of files that it may use, by their URI */
export async function findingsOfText(text: string, uri = 'file:///bakery/rye.bake', others: Readonly<Record<string, string>> = {}): Promise<CheckedFile> {
  const project = new Project({
    roots: ['file:///bakery'],
    reader: { read: (asked) => Promise.resolve(others[asked]) },
    onFault: (code, fault) => {
      throw new Error(`The check ${code} failed.`, { cause: fault });
    },
  });
  project.update(uri, text);
  const file = await project.prepare(uri);
  if (file === undefined) throw new Error(`${uri} was not read`);
  return { path: decodeURIComponent(uri.replace('file:///bakery/', '')), uri, ...findingsIn(file) };
}
