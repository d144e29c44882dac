import { expect, it } from 'vitest';
import { evidenceWeights } from '../../src/diagnosis/assumptions.ts';
import { emptySegment } from '../../src/diagnosis/evidence/evidence-table.ts';
import { fillSegment } from '../../src/diagnosis/evidence/fill-segment.ts';
import type { ChainDropEvent } from '../../src/shifts/ride-events.ts';

const COGS = 12;
const usual = { edges: { lowNm: 20, middleNm: 30, highNm: 40 }, timing: { median: 1, spread: 0.5 } };

/** The chains lost past the largest cog, past the smallest and elsewhere, as a ride without gear records tells them. */
function weighed(drop: Partial<ChainDropEvent>): number[] {
  const segment = emptySegment(COGS, { period: 0, startMs: 0, ride: 0, placed: true });
  const lost: ChainDropEvent = { timeS: 100, side: 'past-largest', afterShiftTo: null, confidence: 1, ...drop };
  const events = {
    ...{ shifts: [], ghostShifts: [], skips: [], pedallingSByCog: new Float64Array(COGS) },
    chainDrops: [lost],
  };
  fillSegment(segment, { events, evidence: 'ratio-only', fromS: 0, toS: 1000, timeShare: 1 }, usual);
  return [...segment.drops];
}

it('weighs the side of a lost chain wholly where the rider saw it, and only in part where a ride without gear records shows it', () => {
  const shown = evidenceWeights.sideWithoutRecords;
  expect(weighed({})).toEqual([shown, 0, 1 - shown]);
  expect(weighed({ toldByRider: true })).toEqual([1, 0, 0]);
  expect(weighed({ toldByRider: true, side: 'unknown' })).toEqual([0, 0, 1]);
});
