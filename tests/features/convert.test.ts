import { describe, expect, it } from 'vitest';
import { convertedText } from '../../server/features/convert';

describe('what the clipboard holds', () => {
  it('is answered as a draft, with how much of it was understood', () => {
    expect(convertedText('500 g bread flour\n350 g water')).toEqual({
      kind: 'draft',
      text: 'formula "Untitled loaf"\n  # to decide: what is it called?\n\ndough\n  500 g     bread flour\n  350 g     water\n',
      summary: 'Drafted "Untitled loaf" from 2 lines: 2 understood, 0 to decide or to look at, 0 kept as text.',
      hasDoubts: true,
    });
  });

  it('has no doubts where all is said', () => {
    expect(convertedText('Plain loaf\n\n500 g bread flour\n350 g water')).toMatchObject({ kind: 'draft', hasDoubts: false });
  });

  it('or in a sentence that says why not', () => {
    expect(convertedText('{"@type": "WebSite"}')).toEqual({ kind: 'cannot', message: 'It is JSON, but there is no Recipe of schema.org in it.' });
  });
});
