import { describe, expect, it } from 'vitest';
import type { KeyedRideReport } from '../../web/api/answers.ts';
import { countsAs, isRejected, rideEvents } from '../../web/ride/ride-event.ts';

const event = (second: number, verdict: 'rejected' | null, found: object | null) => ({
  at: `2026-05-03T07:30:0${second}.000Z`,
  eventKey: `k${second}`,
  confidence: 1,
  verdict,
  found,
});
const nothing = { ghostShifts: [], chainDrops: [], skips: [] };

describe('rideEvents', () => {
  it('gives what the engine found, what the rider rejected among it, and says what that counts as', () => {
    const report = {
      start: '2026-05-03T07:30:00.000Z',
      ...nothing,
      gears: [],
      shifts: [
        {
          ...event(1, 'rejected', { outcome: 'late', crankRevs: 3.2, confidence: 0.8 }),
          outcome: 'clean',
          crankRevs: null,
        },
        { ...event(2, null, null), outcome: 'clean', crankRevs: 0.5 },
      ],
      rejected: { ...nothing, skips: [event(3, 'rejected', { confidence: 0.6 })] },
    } as unknown as KeyedRideReport;
    const events = rideEvents(report);
    expect(events).toMatchObject([
      { kind: 'late', confidence: 0.8, shift: { crankRevs: 3.2 } },
      { kind: 'clean', confidence: 1, shift: { crankRevs: 0.5 } },
      { kind: 'skip', confidence: 0.6, verdict: 'rejected' },
    ]);
    expect(events.map(countsAs)).toEqual(['clean', 'clean', null]);
  });

  it('counts nowhere what fell with a rejected shift, though nothing was said of it itself', () => {
    const report = {
      start: '2026-05-03T07:30:00.000Z',
      ...nothing,
      gears: [],
      shifts: [],
      ghostShifts: [event(1, null, null)],
      rejected: { ...nothing, ghostShifts: [event(2, null, null)] },
    } as unknown as KeyedRideReport;
    const events = rideEvents(report);
    expect(events.map(isRejected)).toEqual([false, true]);
    expect(events.map(countsAs)).toEqual(['ghost', null]);
  });
});
