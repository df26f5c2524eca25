/**
 * Calendar files against RFC 5545, and against a program of others that reads them: ical.js, which knows nothing of ours.
 */
import ICAL from 'ical.js';
import { describe, expect } from 'vitest';
import { calendarText, escapeText, foldLine } from '../../server/output/calendar';
import { scheduleCalendar } from '../../server/output/schedule-calendar';
import { handMoments } from '../../server/output/schedule-words';
import { scheduledFor } from '../output/from-text';
import { eachCheck, outside } from './outside';

const STAMP = Date.UTC(2026, 2, 1, 12);

const LOAF = `
formula "Fig, walnut; and rye — pão de figo 👩‍🍳"
  makes     2 loaves of 970 g
  room      23 C

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  880 g     bread flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts

steps
  mix         8 min, by hand
  bulk        3 h 30 min at 24 C
    fold      at 30 min, add half of walnuts
    fold      at 60 min, add rest of walnuts
  shape       10 min
  retard      10 to 16 h at 4 C
  preheat     60 min at 240 C
  bake        25 min at 240 C, lid on
  bake        18 to 22 min at 215 C, lid off, until "the crust is dark, and it sounds hollow; knock"
  cool        2 h
`;

interface Component {
  readonly name: string;
  readonly properties: readonly string[];
  readonly inner: readonly Component[];
}

/** The components of a file by their BEGIN and END lines alone, with the names of their properties. */
function componentOf(text: string): Component {
  const open: { readonly name: string; readonly properties: string[]; readonly inner: Component[] }[] = [{ name: '', properties: [], inner: [] }];
  for (const line of text.replaceAll('\r\n ', '').split('\r\n')) {
    const [, name = '', value = ''] = /^([A-Z-]+)(?:;[^:]*)?:(.*)$/s.exec(line) ?? [];
    if (name === 'BEGIN') open.push({ name: value, properties: [], inner: [] });
    else if (name === 'END') open.at(-2)!.inner.push(open.pop()!);
    else if (name !== '') open.at(-1)!.properties.push(name);
  }
  return open[0]!.inner[0]!;
}

describe('texts', () => {
  eachCheck<{ readonly text: string; readonly property: string }, { readonly unfolded: string; readonly folded_lines: readonly string[]; readonly max_octets_per_line: number }>(
    'export.ics_escape_fold',
    ({ text, property }, { unfolded, folded_lines, max_octets_per_line }) => {
      const line = `${property}:${escapeText(text)}`;
      expect(line).toBe(unfolded);
      const folded = foldLine(line).split('\r\n');
      expect(folded.length).toBe(folded_lines.length);
      for (const physical of folded) expect(new TextEncoder().encode(physical).length).toBeLessThanOrEqual(max_octets_per_line);
      expect(folded.map((physical, index) => (index === 0 ? physical : physical.slice(1))).join('')).toBe(unfolded);
      expect(folded_lines.map((physical, index) => (index === 0 ? physical : physical.slice(1))).join('')).toBe(unfolded);
    },
  );
});

describe('what must be there', () => {
  eachCheck<{ readonly component: string }, { readonly vcalendar: readonly string[]; readonly vevent: readonly string[]; readonly exclusive: readonly string[]; readonly valarm_display: readonly string[] }>(
    'export.ics_required',
    ({ component }, expected) => {
      const { entry, timeline } = scheduledFor(LOAF, 'ready', '2026-03-14 08:00');
      const calendar = componentOf(scheduleCalendar([{ entry, timeline }], STAMP));
      expect(calendar.name).toBe('VCALENDAR');
      const once = (names: readonly string[], properties: readonly string[]): void => {
        for (const name of names) expect(properties.filter((each) => each === name), name).toHaveLength(1);
      };
      once(expected.vcalendar, calendar.properties);
      expect(calendar.inner.length).toBeGreaterThan(10);
      for (const { name, properties, inner } of calendar.inner) {
        expect(name).toBe(component);
        once(expected.vevent, properties);
        expect(properties.filter((each) => expected.exclusive.includes(each)).length).toBeLessThanOrEqual(1);
        for (const alarm of inner) {
          expect(alarm.name).toBe('VALARM');
          once(expected.valarm_display, alarm.properties);
        }
      }
      expect(calendar.inner.flatMap(({ inner }) => inner).length).toBeGreaterThan(5);
    },
  );
});

describe('every event, read by another program', () => {
  const check = outside('general-purpose library', 'ical.js 2, a parser of RFC 5545');
  const zones = [['Europe/Lisbon', '2026-03-29 12:00'], ['Australia/Lord_Howe', '2026-04-05 09:00'], ['America/St_Johns', '2026-11-01 08:00'], ['Asia/Kolkata', '2026-03-14 08:00']] as const;
  for (const [zone, ready] of zones) check(`${zone}, ready ${ready}`, () => {
    const scheduled = scheduledFor(LOAF, 'ready', ready, zone);
    const { timeline, entry } = scheduled;
    if (timeline.kind !== 'placed') throw new Error('not placed');
    const root = new ICAL.Component(ICAL.parse(scheduleCalendar([scheduled], STAMP)) as unknown[]);
    const events = root.getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
    expect(events.map(({ startDate, endDate }) => [startDate.toUnixTime() * 1000, endDate.toUnixTime() * 1000])).toEqual(
      timeline.steps.map(({ startMs, endMs }) => [Math.floor(startMs / 1000) * 1000, Math.floor(endMs / 1000) * 1000]),
    );
    // Names of every kind come through whole.
    for (const [index, { summary }] of events.entries()) {
      expect(summary.startsWith(`${entry.formula.name}: ${timeline.steps[index]!.label}`)).toBe(true);
    }
    expect(events.some(({ summary }) => summary.includes('until "the crust is dark, and it sounds hollow; knock"'))).toBe(true);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    // An alarm where somebody is wanted, at that end, and nowhere else.
    expect(events.map(({ component }) => component.getAllSubcomponents('valarm').map((alarm) => (
      alarm.getFirstProperty('trigger')!.getFirstParameter('related') === 'END' ? 'end' : 'start'
    )))).toEqual(timeline.steps.map((step) => (step.handsOn ? ['start'] : handMoments(timeline, step).map(({ at }) => at))));
  });

  check('a text in every script, with every sign that must be escaped', () => {
    const text = 'Pão, 漢字; \\ „quoted” — 👩‍🍳 e\u0301\nsecond line: half, half; '.repeat(5);
    const root = new ICAL.Component(ICAL.parse(calendarText([
      { uid: 'a', summary: text, description: text, startMs: STAMP, endMs: STAMP + 60_000, busy: true, alarms: [{ at: 'end', text }] },
    ], STAMP)) as unknown[]);
    const [component] = root.getAllSubcomponents('vevent');
    expect(component!.getFirstPropertyValue('summary')).toBe(text);
    expect(component!.getFirstPropertyValue('description')).toBe(text);
    expect(component!.getFirstSubcomponent('valarm')!.getFirstPropertyValue('description')).toBe(text);
  });
});
