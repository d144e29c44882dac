import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { healthyPattern, type PatternRide } from '../pattern-ride.ts';
import { adjustedBike, slow, type Turn, verdictOn } from './adjusted-bikes.ts';

/** Too low a tension, then a few shifts after the hanger was seen to or the tension turned. */
const rides = (after: Turn, then: Omit<PatternRide, 'day'>) => [
  { pattern: slow('to-larger') },
  { pattern: slow('to-larger') },
  { ...then, after },
];
const few = { pattern: healthyPattern, shifts: 3 };
const hanger: Turn = ['hanger', null];

describe('a fault with which hardly anything goes wrong since something helped for sure', () => {
  const { now, suggestion, shiftsWellSince, causes } = verdictOn(rides(hanger, few));

  it('is not called there as it was, though what was done is not its usual cure', () => {
    expect([causes[0].cause, shiftsWellSince]).toEqual(['cable-tension-low', null]);
    expect(now.setting).toBe('unsettled');
  });

  it('is ridden before anything more is turned, and is said to have got better by what', () => {
    expect(suggestion.parameter).toBe('none');
    expect(suggestion.action).toMatch(
      /^Ride before anything more is turned: it got better with what was done on 2026-05-04 \(derailleur hanger aligned or replaced\), which is not the usual cure for too low a cable tension, but what was ridden since .* put right\.$/,
    );
    // nothing was turned that could have gone past the mark
    expect(suggestion.start).toMatch(/anticlockwise at the barrel/);
  });

  it('is there where shifts still fail, fewer though they are, or where nothing was done', () => {
    const less = verdictOn(rides(hanger, { pattern: slow('to-larger', 0.1, 0.1), shifts: 12 }));
    expect([less.now.setting, less.suggestion.parameter]).toEqual(['same', 'cable-tension']);
    const bike = adjustedBike(rides(hanger, few));
    expect(diagnose({ ...bike, adjustments: [] }).now.setting).toBe('same');
  });

  it('keeps an entry of the wrong sign to be checked', () => {
    expect(verdictOn(rides(['cable-tension', -2], few)).now.setting).toBe('same');
  });
});
