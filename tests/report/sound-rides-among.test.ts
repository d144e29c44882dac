import { expect, it } from 'vitest';
import { soundRidesAmong } from '../../src/report/words/sound-rides-among.ts';

const ride = (day: number) => ({ start: `2026-05-0${day}T08:00:00.000Z`, durationS: 3600, leftOut: null });
const told = (kind: 'sudden' | 'steady', at: string, probability = 0.9) =>
  soundRidesAmong({
    rides: [ride(2), ride(4), ride(6)],
    diagnosis: { onset: { kind, at, rideBeforeAt: null, probability } },
  });

it('says how many rides are from before a fault began suddenly', () => {
  expect(told('sudden', '2026-05-04T08:00:00.000Z')).toBe(
    'Of the 3 rides counted here 1 is from before the fault began.',
  );
  expect(told('sudden', '2026-05-06T08:30:00.000Z')).toBe(
    'Of the 3 rides counted here 2 are from before the fault began.',
  );
});

it('says nothing where it was there from the first ride on, or it is not sure that it began suddenly', () => {
  expect(told('steady', '2026-05-02T08:00:00.000Z')).toBe('');
  expect(told('sudden', '2026-05-04T08:00:00.000Z', 0.4)).toBe('');
  expect(told('sudden', '2026-05-02T08:00:00.000Z')).toBe('');
});
