import { describe, expect, it } from 'vitest';
import { readSizes, sizesIn, withSize } from '../../client/preview/sizes';

const buns = { by: 'pieces', value: '24' };

describe('sizes that are kept with the panel', () => {
  it('one for each formula of each file', () => {
    let kept = withSize([], 'a', 'Buns', buns);
    kept = withSize(kept, 'b', 'Buns', { by: 'factor', value: '2' });
    kept = withSize(kept, 'a', 'Buns', { by: 'pieces', value: '36' });
    expect(sizesIn(kept, 'a')).toEqual([{ formula: 'Buns', size: { by: 'pieces', value: '36' } }]);
    expect(sizesIn(withSize(kept, 'a', 'Buns', undefined), 'a')).toEqual([]);
    expect(sizesIn(kept, 'b')).toHaveLength(1);
  });

  it('the oldest give way', () => {
    let kept = withSize([], 'a', 'first', buns);
    for (let at = 0; at < 50; at += 1) kept = withSize(kept, 'a', `formula ${at}`, buns);
    expect(kept).toHaveLength(50);
    expect(kept.some(({ formula }) => formula === 'first')).toBe(false);
  });

  it('what comes back from storage and is none is left out', () => {
    const good = { uri: 'a', formula: '', size: { by: 'pieces', value: '24', step: '1 g' } };
    const bad = [null, 3, {}, { ...good, size: null }, { ...good, uri: 1 }, { ...good, size: { by: 'pieces' } }, { ...good, size: { ...buns, step: 1 } }];
    expect(readSizes([good, ...bad])).toEqual([good]);
    for (const none of [undefined, null, 'sizes', { 0: good }]) expect(readSizes(none)).toEqual([]);
  });
});
