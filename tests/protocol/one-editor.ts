/** An editor for each test of a file, ended whatever becomes of the test. */
import { afterEach, expect } from 'vitest';
import { Editor } from './editor';
import type { EditorOptions } from './editor';

let editor: Editor | undefined;

export async function open(options?: EditorOptions): Promise<Editor> {
  return (editor = await Editor.open(options));
}

/** Every test ends with it, so that nothing is left unread. */
export async function quit(): Promise<void> {
  expect(await editor?.quit()).toBe(0);
  editor = undefined;
}

afterEach(() => {
  editor?.kill();
  editor = undefined;
});
