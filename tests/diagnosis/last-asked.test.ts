import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { afterLargerShare, lastAskedBefore } from '../../src/diagnosis/evidence/last-asked.ts';
import { observe } from '../../src/diagnosis/observed.ts';
import { evidenceSentences } from '../../src/diagnosis/sentences/evidence-sentences.ts';
import type { Direction, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { cableBike, patternRide } from './pattern-ride.ts';
import { probabilityOf } from './probability-of.ts';

const asked = (timeS: number, toCog: number, direction: Direction): ShiftEvent =>
  ({ timeS, lastTimeS: timeS, toCog, direction }) as ShiftEvent;

describe('what was asked for last', () => {
  const shifts = [
    asked(10, 4, 'to-larger'),
    asked(40, 3, 'to-smaller'),
    asked(50, 4, 'to-larger'),
    asked(60, 5, 'to-larger'),
  ];

  it('is the shift before a moment', () => {
    expect(lastAskedBefore(shifts, 9)).toBeNull();
    expect(lastAskedBefore(shifts, 39)).toBe('to-larger');
    expect(lastAskedBefore(shifts, 41)).toBe('to-smaller');
    expect(lastAskedBefore(shifts, 999)).toBe('to-larger');
  });

  it('shares the time on each cog, and a cog that was never asked for evenly', () => {
    expect([...afterLargerShare(shifts, 6)]).toEqual([0.5, 0.5, 0.5, 0, 1, 0.5]);
    const both = [asked(0, 2, 'to-larger'), asked(30, 2, 'to-smaller'), asked(40, 1, 'to-smaller')];
    expect(afterLargerShare(both, 3)[2]).toBeCloseTo(0.75, 9);
  });
});

/** A ride slow to smaller cogs whose chain climbs three times by itself, six seconds after a shift in one direction. */
function climbsAfter(direction: Direction): DiagnosisRide {
  const ride = patternRide({ pattern: (_, larger) => (larger ? {} : { late: 0.25, missed: 0.1 }) });
  const inner = ride.events.shifts.filter(
    (shift) => shift.direction === direction && shift.toCog > 2 && shift.toCog < 9,
  );
  const ghostShifts = [5, 20, 35].map((n) => ({
    timeS: inner[n].timeS + 6,
    fromCog: inner[n].toCog,
    toCog: inner[n].toCog + 1,
    heldS: 3,
    confidence: 0.9,
    torqueNm: 20,
  }));
  return { ...ride, events: { ...ride.events, ghostShifts } };
}

// a cable that sticks holds the pulley inboard after a shift to a smaller cog only; one too tight holds it there after every shift (common practice, no source)
it('a chain that climbs by itself after shifts to larger cogs speaks for a tight cable against one that sticks', () => {
  const tightAgainstSticking = (direction: Direction): number => {
    const verdict = diagnose({ bike: cableBike, rides: [climbsAfter(direction)], adjustments: [] });
    return probabilityOf(verdict, 'cable-tension-high') / probabilityOf(verdict, 'cable-friction');
  };
  expect(tightAgainstSticking('to-larger')).toBeGreaterThan(5);
  expect(tightAgainstSticking('to-larger')).toBeGreaterThan(4 * tightAgainstSticking('to-smaller'));
});

it('and is said so beside the cable that sticks', () => {
  const said = (direction: Direction): string[] =>
    evidenceSentences('cable-friction', observe([climbsAfter(direction)], cableBike));
  expect(said('to-larger')[1]).toBe(
    'After shifts to larger cogs the chain went by itself to a still larger one 3 times, which a cable that sticks does not make it do.',
  );
  expect(said('to-smaller')).toHaveLength(1);
});
