import { describe, expect, it } from 'vitest';
import * as library from 'vscode-languageserver';
import * as own from '../../server/features/shared/protocol';

describe('the words and numbers of the protocol', () => {
  it.each(Object.entries(own))('%s are those of its library', (name, values) => {
    const theirs = library[name as keyof typeof own] as Readonly<Record<string, unknown>>;
    for (const [word, value] of Object.entries(values)) expect(theirs[word], word).toBe(value);
  });
});
