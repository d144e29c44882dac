import { expect, it } from 'vitest';
import { utcDay, utcMoment } from '../../src/numeric/moment-words.ts';

it('writes a moment in one form, in UTC whatever zone it was logged in', () => {
  expect(utcMoment('2026-04-12T18:30:59Z')).toBe('2026-04-12 18:30 UTC');
  expect(utcMoment('2026-04-13T00:30:00+02:00')).toBe('2026-04-12 22:30 UTC');
  expect(utcDay('2026-04-13T00:30:00+02:00')).toBe('2026-04-12');
  expect(utcDay(Date.UTC(2026, 3, 12, 23))).toBe('2026-04-12');
});
