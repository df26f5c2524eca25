/** Settings that are right, made from the table of settings. */
import fc from 'fast-check';
import { CHOICES, HOURS_OFF, leastValue, LIMITS, ROOM_TODAY, SETTABLE, SEVERITIES, TAP } from '../../../server/core/settings/settings';

const limits = fc.record(
  Object.fromEntries(Object.entries(LIMITS).map(([code, names]) => [code, fc.record(
    Object.fromEntries(Object.entries(names).map(([name, limit]) => [name, fc.double({ min: leastValue(limit), max: 1000, noNaN: true, noDefaultInfinity: true }).map((n) => n + 0)])),
    { requiredKeys: [], noNullPrototype: true },
  )])),
  { requiredKeys: [], noNullPrototype: true },
);

const checks = fc.record(
  Object.fromEntries(SETTABLE.map(({ code, canBeOff }) => [code, fc.constantFrom(...Object.keys(SEVERITIES).filter((word) => canBeOff || word !== 'off'))])),
  { requiredKeys: [], noNullPrototype: true },
);

export const anySettings = fc.record({
  measures: fc.constantFrom(...Object.keys(CHOICES.measures.words)),
  zone: fc.constantFrom('Europe/Lisbon', 'UTC', 'America/Sao_Paulo'),
  tapCelsius: fc.double({ min: TAP.least, max: TAP.most, noNaN: true }).map((n) => n + 0),
  asleep: fc.constantFrom(HOURS_OFF.asleep.example, [HOURS_OFF.asleep.example, '13:00-14:00'], []),
  away: fc.constantFrom(HOURS_OFF.away.example, ['8:00 – 24:00 on sunday, mon to tue']),
  roomTodayCelsius: fc.double({ min: ROOM_TODAY.least, max: ROOM_TODAY.most, noNaN: true }).map((n) => n + 0),
  limits, checks,
  allergens: fc.constantFrom(...Object.keys(CHOICES.allergens.words)),
  labelRounding: fc.constantFrom(...Object.keys(CHOICES.labelRounding.words)),
  hints: fc.constantFrom(...Object.keys(CHOICES.hints.words)),
}, { requiredKeys: [], noNullPrototype: true });
