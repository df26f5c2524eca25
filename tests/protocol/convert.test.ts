/** A recipe from the clipboard over the protocol: about no file, whatever is open. */
import { afterEach, expect, it } from 'vitest';
import { CONVERT_REQUEST, type ConvertAnswer } from '../../server/requests';
import { Editor } from './editor';

let editor: Editor | undefined;
afterEach(() => {
  editor?.kill();
  editor = undefined;
});

it('is answered as a draft, or with why there is none', async () => {
  const e = (editor = await Editor.open({}));
  const ask = async (text: string): Promise<ConvertAnswer> => e.request<ConvertAnswer>(CONVERT_REQUEST, { text });
  expect(await ask('Plain loaf\n\n1 lb bread flour\n300 g water\n2 tsp salt\n1 packet (7 g) yeast\n\nBake at 450F for 20 minutes covered and 25 uncovered.')).toEqual({
    kind: 'draft',
    text: 'formula "Plain loaf"\n\ndough\n  1 lb      bread flour\n  300 g     water\n  2 tsp     salt\n  7 g       yeast, 1 packet\n\nsteps\n'
      + '  bake      20 min at 232 C, lid on, "Bake at 450F for 20 minutes covered and 25 uncovered."\n  bake      25 min at 232 C, lid off\n',
    summary: 'Drafted "Plain loaf" from 6 lines: 5 understood, 1 to decide or to look at, 0 kept as text.',
    hasDoubts: true,
  });
  expect(await ask('<script type="application/ld+json">{"@type": "Recipe", "name": "Bun", "recipeIngredient": ["500 g bread flour"]}</script>'))
    .toMatchObject({ kind: 'draft', text: 'formula "Bun"\n\ndough\n  500 g     bread flour\n', hasDoubts: false });
  expect(await ask('')).toMatchObject({ kind: 'cannot' });
  expect(await e.quit()).toBe(0);
});
