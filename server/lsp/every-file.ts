/** Every file of a workspace that can be found, for what is asked about all of them. */
import type { ProjectFile } from '../project/file';
import type { Project } from '../project/project';
import { Turns } from '../project/turns';
import type { Findings } from './findings';
import { giveWay } from './giving-way';
import type { Host } from './host';

export interface Workspace {
  readonly project: Project;
  readonly findings: Findings;
  readonly host: Pick<Host, 'find' | 'findPages'>;
}

/** The `.bake` files and the Markdown pages with formulas in them, open or not, loaded in short turns. */
export async function everyFile({ project, findings, host }: Workspace): Promise<readonly ProjectFile[]> {
  const { roots } = project;
  const found = await Promise.all([host.find?.(roots) ?? [], host.findPages?.(roots) ?? []]);
  // An old version beside a comparison is none of them.
  const uris = [...project.loaded().filter(uri => findings.wants(uri)), ...found.flat()];
  await project.read(uris);
  const turns = new Turns();
  for (const uri of uris) {
    if (turns.isOver()) await giveWay(turns, () => findings.isBusy);
    await project.prepare(uri);
  }
  // A text may have changed while others were being read: each as it is now.
  return [...new Set(uris.flatMap(uri => project.get(uri) ?? []))].filter(file => file.page?.fences.length !== 0);
}
