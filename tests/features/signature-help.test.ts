import { describe, expect, it } from 'vitest';
import { SignatureHelpTriggerKind } from 'vscode-languageserver';
import { signatureHelpAt } from '../../server/features/signature-help';
import { marked } from './marked';

/** The shape of the line with the place of the cursor in ‹ ›. */
async function shape(source: string, context?: Parameters<typeof signatureHelpAt>[2]): Promise<string | undefined> {
  const { file, offset } = await marked(source);
  const help = signatureHelpAt(file, offset, context);
  const signature = help?.signatures[0];
  const [from, to] = (signature?.parameters?.[help!.activeParameter!]?.label ?? [0, 0]) as [number, number];
  return signature && `${signature.label.slice(0, from)}‹${signature.label.slice(from, to)}›${signature.label.slice(to)}`;
}

const TYPED = { triggerKind: SignatureHelpTriggerKind.TriggerCharacter, triggerCharacter: ' ', isRetrigger: false };

describe('the shape of the line that is written', () => {
  const line = '[at temperature] [as role] [for purpose][, note]';
  it.each([
    ['dough\n  7┆', `‹amount› name ${line}`],
    ['dough\n  700 ┆', `‹amount› name ${line}`],
    ['dough\n  700 g ┆', `amount ‹name› ${line}`],
    ['dough\n  700 g bread fl┆our', `amount ‹name› ${line}`],
    ['dough\n  72% wa┆', `amount ‹name› ${line}`],
    ['dough\n  4 eggs┆', `amount ‹name› ${line}`],
    ['dough\n  1 1/2 tsp (4.5 g) v┆', `amount ‹name› ${line}`],
    ['dough\n  all ┆', `amount ‹name› ${line}`],
    ['dough\n  700 g water at ┆', 'amount name ‹[at temperature]› [as role] [for purpose][, note]'],
    ['dough\n  700 g oats at 20 C as ┆', 'amount name [at temperature] ‹[as role]› [for purpose][, note]'],
    ['dough\n  700 g oats for ┆', 'amount name [at temperature] [as role] ‹[for purpose]›[, note]'],
    ['dough\n  700 g oats,┆', 'amount name [at temperature] [as role] [for purpose]‹[, note]›'],
    ['steps\n  bulk ┆', 'bulk ‹[time]› [at temperature][, detail]…'.replace('[, detail]…', '[, detail]…')],
    ['steps\n  bulk 3 h at ┆', 'bulk [time] ‹[at temperature]›[, detail]…'],
    ['steps\n  bulk 3 h\n    stretch and fold at ┆', 'stretch and fold [time] ‹[at temperature]›[, detail]…'],
    ['steps\n  bake 25 min at 240 C, ┆', 'bake [time] [at temperature]‹[, detail]…›'],
    ['steps\n  do ┆', 'do ‹"what"› [time] [at temperature][, detail]…'],
    ['steps\n  do "turn" 5┆', 'do "what" ‹[time]› [at temperature][, detail]…'],
    ['formula "A"\n  makes ┆', 'makes ‹pieces› [of weight]'],
    ['formula "A"\n  makes 2 loaves of ┆', 'makes pieces ‹[of weight]›'],
    ['formula "A"\n  loses 12 % ┆', 'loses share ‹where›'],
    ['formula "A"\n  swap figs for ┆', 'swap ingredient ‹for ingredient› [in part]'],
    ['formula "A"\n  set water to 76 % in ┆', 'set ingredient to amount ‹[in part]›'],
    ['formula "A"\n  add 10 g ┆', 'add amount ‹name› [at temperature] [as role] [for purpose] [in part][, note]'],
    ['formula "A"\n  based on ┆', 'based on ‹"formula"›'],
    ['ingredient "a"\n  costs 2.40 EUR ┆', 'costs price currency ‹per unit›'],
    ['plan "a"\n  ready 2026-03-14 ┆', 'ready date ‹time› [zone]'],
    ['plan "a"\n  away 09:00 to 17:00 on ┆', 'away from to ‹[on days]›'],
    ['plan "a"\n  bake 6 loaves of "┆', 'bake how many ‹of "name"›[, ready time]'],
    ['plan "a"\n  fridge ┆', 'fridge ‹["name"]› holds pieces [or pieces]'],
    ['formula "A"\n  fridge ┆', 'fridge ‹temperature›'],
    ['record 2026-03-14\n  weighed 1512 g, 2 loaves, after ┆', 'weighed weight[, pieces]‹[, after time]›'],
    ['dish "a"\n  uses 8 slices of ┆', 'uses amount ‹of "formula"›[, note]'],
    ['dough ┆', 'dough ‹["name"]› [at temperature]'],
    ['dough at ┆', 'dough ["name"] ‹[at temperature]›'],
    ['record ┆', 'record ‹date›'],
    ['use ┆', 'use ‹"path"›'],
  ])('%j', async (source, expected) => expect(await shape(source)).toBe(expected));

  it('is not shown in comments and notes, or where nothing is known to go', async () => {
    for (const source of ['dough\n  700 g # fl┆', 'dough\n  700 g figs, wel┆', 'formula "A"\n  note ┆', 'formula "A"\n  note "two ┆', 'steps\n  mix 3 min, until "it ┆', 'wibble ┆', 'steps ┆', 'dough\n  wibble ┆', '  700 g ┆', '# ┆']) {
      expect([source, await shape(source)]).toEqual([source, undefined]);
    }
  });

  it('comes by itself only where a place begins, and stays for as long as the line is written', async () => {
    expect(await shape('dough\n  700 g ┆', TYPED)).toContain('‹name›');
    expect(await shape('dough\n  700 g bread ┆', TYPED)).toBeUndefined();
    expect(await shape('dough\n  700 g bread ┆', { ...TYPED, isRetrigger: true })).toContain('‹name›');
    expect(await shape('steps\n  bulk 3 ┆', TYPED)).toBeUndefined();
    expect(await shape('steps\n  bulk ┆', TYPED)).toContain('‹[time]›');
  });

  it('has a sentence for the line and for each of its places', async () => {
    const { file, offset } = await marked('dough\n  700 g ┆');
    const [signature] = signatureHelpAt(file, offset)!.signatures;
    expect(signature?.documentation).toBe('An ingredient: how much of what.');
    for (const { documentation } of signature!.parameters!) expect(documentation).toMatch(/[.…]$/);
  });
});
