/** No matter how long a session is: what is gone from the text is gone from memory. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { Project } from '../../server/project/project';

setFlagsFromString('--expose_gc');
const collect = runInNewContext('gc') as () => void;

const loaf = (name: string, water: number) => `formula "${name}"\n\ndough\n  500 g bread flour\n  ${water} g water\n  10 g salt\n\n`;

describe('after many edits', () => {
  it('a formula as it was before them is kept by nobody', async () => {
    const uri = 'file:///stall/a.bake';
    const project = new Project({ reader: { read: () => Promise.resolve(undefined) }, roots: [] });
    const sections: WeakRef<object>[] = [];
    const look = (a: number, b: number): void => {
      project.update(uri, `use "pantry.bake"\n\n${loaf('A', a)}${loaf('B', b)}plan "Saturday"\n  bake 6 loaves of "A"\n`);
      for (const section of project.get(uri)?.sections ?? []) {
        expect(section.analysis.section).toBe(section.section);
        if (section.section.kind === 'formula') sections.push(new WeakRef(section.section));
      }
    };
    look(300, 300);
    await project.prepare(uri);
    for (let edit = 1; edit <= 20; edit++) look(300 + edit, 300 + Math.floor(edit / 2));
    await new Promise(resolve => setTimeout(resolve, 0));
    collect();
    const alive = new Set(sections.map(section => section.deref()).filter(section => section !== undefined));
    expect(alive.size).toBe(2);
  });
});
