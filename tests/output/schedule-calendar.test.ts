import { describe, expect, test } from 'vitest';
import { scheduleCalendar } from '../../server/output/schedule-calendar';
import { scheduledFor } from './from-text';

const STAMP = Date.UTC(2026, 2, 1, 12);
const LOAF = 'formula "Plain loaf"\n\nsteps\n  mix 10 min\n  retard 10 h at 4 C\n  bake 40 min at 240 C\n  cool 1 h\n';
const loaf = (ready = '2026-03-14 08:00', text = LOAF) => scheduledFor(text, 'ready', ready);
const unfolded = (text: string): readonly string[] => text.replaceAll('\r\n ', '').split('\r\n');
const uids = (text: string): readonly string[] => unfolded(text).filter((line) => line.startsWith('UID:'));

describe('a schedule as a calendar', () => {
  test('an event a step, with alarms for hands', () => {
    const lines = unfolded(scheduleCalendar([loaf()], STAMP));
    const at = lines.findIndex((line) => line.startsWith('SUMMARY:Plain loaf: retard'));
    expect(lines.slice(at - 5, at + 14)).toEqual([
      'BEGIN:VEVENT', expect.stringMatching(/^UID:[0-9a-f]{16}@proofsheet$/), 'DTSTAMP:20260301T120000Z', 'DTSTART:20260313T202000Z', 'DTEND:20260314T062000Z',
      'SUMMARY:Plain loaf: retard at 4 °C',
      'DESCRIPTION:10 h\\nBy hand: into the fridge and out.\\nTimes are those of Europe/Lisbon.',
      'TRANSP:TRANSPARENT',
      'BEGIN:VALARM', 'ACTION:DISPLAY', 'TRIGGER:PT0S', 'DESCRIPTION:Plain loaf: into the fridge', 'END:VALARM',
      'BEGIN:VALARM', 'ACTION:DISPLAY', 'TRIGGER;RELATED=END:PT0S', 'DESCRIPTION:Plain loaf: out of the fridge', 'END:VALARM',
      'END:VEVENT',
    ]);
    expect(lines).toContain('TRANSP:OPAQUE');
    expect(lines.filter((line) => line === 'BEGIN:VALARM')).toHaveLength(5);
  });

  test('the same bake keeps its UIDs, another day has others', () => {
    const first = uids(scheduleCalendar([loaf()], STAMP));
    expect(first).toHaveLength(4);
    expect(uids(scheduleCalendar([loaf('2026-03-14 09:30', LOAF.replace('10 min', '12 min'))], STAMP + 1000))).toEqual(first);
    const others = uids(scheduleCalendar([loaf('2026-03-21 08:00')], STAMP));
    expect(others.filter((uid) => first.includes(uid))).toEqual([]);
  });

  test('two bakes of one name are two', () => {
    const both = uids(scheduleCalendar([loaf(), loaf()], STAMP));
    expect(new Set(both).size).toBe(8);
  });

  test('what has no times has no events', () => {
    expect(uids(scheduleCalendar([scheduledFor('formula "X"\n', 'ready', '2026-03-14 08:00')], STAMP))).toEqual([]);
  });
});
