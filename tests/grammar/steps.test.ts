/** The lines of a method. */
import { describe, expect, it } from 'vitest';
import { STEP_KINDS } from '../../grammar';
import { read } from './helpers';

describe('steps', () => {
  it.each(STEP_KINDS.filter((kind) => kind !== 'do'))('%s', (kind) => {
    expect(read('steps', `${kind} 30 min at 24 C`)).toMatchObject({ kind: 'step', step: kind, duration: { lowMinutes: 30 }, temperature: { lowCelsius: 24 }, details: [] });
  });

  it('any other by name', () => {
    expect(read('steps', 'do "brush with butter" 10 min at room')).toMatchObject({ step: 'do', label: { text: 'brush with butter' }, duration: { lowMinutes: 10 }, temperature: { kind: 'room' } });
    expect(read('steps', 'do turn the tins 2 min')).toMatchObject({ step: 'do', label: { text: 'turn the tins', quoted: false }, duration: { lowMinutes: 2 } });
  });

  it('time and temperature in either order, with or without for', () => {
    expect(read('steps', 'bake at 240 C for 25 min')).toEqual(read('steps', 'bake 25 min at 240 C'));
  });

  it.each([
    ['lid on', { kind: 'lid', on: true }], ['lid off', { kind: 'lid', on: false }], ['with steam', { kind: 'steam' }], ['by hand', { kind: 'by', how: 'hand' }],
    ['by mixer', { kind: 'by', how: 'mixer' }], ['until core 97 C', { kind: 'until-core', temperature: { lowCelsius: 97 } }],
    ['until volume 75 %', { kind: 'until-volume', percent: { value: 75 } }], ['until "it sounds hollow"', { kind: 'until', text: { text: 'it sounds hollow' } }],
    ['until golden', { kind: 'until', text: { text: 'golden', quoted: false } }], ['attended', { kind: 'attended', attended: true }],
    ['unattended', { kind: 'attended', attended: false }], ['at 30 min', { kind: 'at', offset: { lowMinutes: 30 } }], ['every 30 min', { kind: 'every', interval: { lowMinutes: 30 } }],
    ['4 times', { kind: 'times', count: { value: 4 } }], ['gently, as it is wet', { kind: 'note', text: { text: 'gently' } }], ['"10 min more"', { kind: 'note', text: { text: '10 min more', quoted: true } }],
    ['lid ajar', { kind: 'note', text: { text: 'lid ajar' } }], ['with a scraper', { kind: 'note', text: { text: 'with a scraper' } }],
  ])('%s', (text, detail) => {
    expect((read('steps', `bulk 3 h, ${text}`) as { details: unknown[] }).details[0]).toMatchObject(detail);
  });

  it.each([
    ['add walnuts', { kind: 'whole' }], ['add all walnuts', { kind: 'whole' }], ['add half of walnuts', { kind: 'fraction', fraction: 0.5 }],
    ['add 1/4 of the walnuts', { kind: 'fraction', fraction: 0.25 }], ['add 40 % of walnuts', { kind: 'fraction', fraction: 0.4 }], ['add rest of walnuts', { kind: 'rest' }],
    ['add the rest of the walnuts', { kind: 'rest' }], ['add 40 g of walnuts', { kind: 'amount', amount: { kind: 'mass' } }], ['add 12 walnuts', { kind: 'amount', amount: { kind: 'count' } }],
    ['add a pinch of walnuts', { kind: 'amount', amount: { kind: 'pinch' } }],
  ])('%s', (text, portion) => {
    expect((read('steps', `fold at 60 min, ${text}`) as { details: unknown[] }).details[1]).toMatchObject({ kind: 'add', portion, name: { text: 'walnuts' } });
  });

  it('when in a bulk, right behind the kind', () => {
    expect(read('steps', 'coil fold at 120 min')).toMatchObject({ step: 'coil fold', details: [{ kind: 'at', offset: { lowMinutes: 120 } }] });
    expect(read('steps', 'fold every 30 min, 4 times')).toMatchObject({ details: [{ kind: 'every' }, { kind: 'times' }] });
    expect(read('steps', 'stretch and fold 2 min at 24 C at 30 min')).toMatchObject({ duration: { lowMinutes: 2 }, temperature: { lowCelsius: 24 }, details: [{ kind: 'at' }] });
  });

  it('a time alone behind a comma is the time of a step that has none', () => {
    expect(read('steps', 'mix, by hand, 8 min')).toMatchObject({ duration: { lowMinutes: 8 }, details: [{ kind: 'by' }] });
    expect(read('steps', 'mix 4 min, 8 min')).toMatchObject({ duration: { lowMinutes: 4 }, details: [{ kind: 'note', text: { text: '8 min' } }] });
  });

  it('in a part and in a record', () => {
    expect(read('levain', 'ripen 8 h at 24 C')).toMatchObject({ kind: 'step', step: 'ripen' });
    expect(read('record 2026-03-14', 'bulk 4 h 10 min, volume 70 %')).toMatchObject({ step: 'bulk', details: [{ kind: 'until-volume', percent: { value: 70 } }] });
    expect(read('record 2026-03-14', 'retard 13 h at 5 C')).toMatchObject({ step: 'retard' });
  });
});
