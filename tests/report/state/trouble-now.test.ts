import { describe, expect, it } from 'vitest';
import type { PlacedRide } from '../../../src/adjustments/adjustment-periods.ts';
import { FEWEST_SHIFTS } from '../../../src/diagnosis/fewest-shifts.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { sampleEvents, sampleReport, shiftAt } from '../sample-report.ts';

describe('the trouble that a bike’s state tells', () => {
  const report = sampleReport();
  const [made] = report.adjustments;
  const all = report.cogs.reduce((sum, { shifts }) => sum + shifts, 0);
  const [adjustedMs, begunMs] = [Date.parse('2026-05-01T00:00:00.000Z'), Date.parse('2026-06-01T00:00:00.000Z')];
  const adjustments = [{ ...made, at: new Date(adjustedMs).toISOString() }];
  const begun = { kind: 'sudden', at: new Date(begunMs).toISOString(), rideBeforeAt: null, probability: 0.99 } as const;
  /** A ride that starts a minute after a moment, with so many shifts, those of them late, and one that was not judged. */
  const ride = (afterMs: number, shifts: number, late: number): PlacedRide => ({
    startMs: afterMs + 60_000,
    events: {
      ...sampleEvents(4),
      shifts: Array.from({ length: shifts + 1 }, (_, i) =>
        shiftAt(10 * i, 3, 4, i === shifts ? 'unjudged' : i < late ? 'late' : 'clean'),
      ),
    },
  });
  const before = ride(adjustedMs - 86_400_000, 100, 90);
  const stateOf = (changes: Partial<typeof report>, rides: readonly PlacedRide[], onset = report.diagnosis.onset) =>
    bikeState({ ...report, adjustments: [], ...changes, diagnosis: { ...report.diagnosis, onset } }, rides);

  it('is that since the last adjustment where enough was ridden since', () => {
    const rides = [before, ride(adjustedMs, 20, 4), ride(adjustedMs + 86_400_000, 20, 4)];
    expect(stateOf({ adjustments }, rides)).toMatchObject({
      since: 'last-adjustment',
      sinceAt: adjustments[0].at,
      sinceAdjustment: true,
      judgedShifts: 40,
      judgedRides: 2,
      troubleRate: 0.2,
    });
  });

  it('is that since a fault began suddenly, whether or not something was adjusted before it', () => {
    const rides = [before, ride(adjustedMs, 50, 0), ride(begunMs, 40, 20)];
    for (const made of [[], adjustments]) {
      const state = stateOf({ adjustments: made }, rides, begun);
      expect(state).toMatchObject({ since: 'onset', sinceAt: begun.at, judgedShifts: 40, troubleRate: 0.5 });
      expect(state.reasons.join(' ')).toContain(
        '20 shifts of 40 late, missed or overshot since a fault began suddenly',
      );
    }
    expect(stateOf({}, rides, { ...begun, probability: 0.4 }).since).toBe('first-ride');
  });

  it('is that since the earlier of the two where too little was ridden since the later', () => {
    const rides = [before, ride(adjustedMs, 50, 0), ride(begunMs, FEWEST_SHIFTS - 1, 20)];
    expect(stateOf({ adjustments }, rides, begun)).toMatchObject({
      since: 'last-adjustment',
      judgedShifts: 50 + FEWEST_SHIFTS - 1,
    });
  });

  it('does not begin with what was turned and taken back with no ride between', () => {
    const rides = [before, ride(adjustedMs, 40, 8)];
    const takenBack = adjustments.map((one) => ({ ...one, cancelledOut: true }));
    expect(stateOf({ adjustments: takenBack }, rides).since).toBe('first-ride');
    const later = { ...takenBack[0], at: new Date(begunMs).toISOString() };
    expect(stateOf({ adjustments: [...adjustments, later] }, [...rides, ride(begunMs, 40, 8)])).toMatchObject({
      sinceAt: adjustments[0].at,
      judgedShifts: 80,
    });
  });

  it('is that of all rides otherwise', () => {
    const undated = { ...ride(0, 100, 0), startMs: 0 };
    for (const rides of [[], [before, ride(adjustedMs, FEWEST_SHIFTS - 1, 0)], [undated]])
      expect(stateOf({ adjustments }, rides)).toMatchObject({
        since: 'first-ride',
        sinceAt: null,
        sinceAdjustment: false,
        judgedShifts: all,
        judgedRides: 2,
      });
    expect(bikeState(null, [])).toMatchObject({ since: 'first-ride', judgedShifts: 0 });
  });
});
