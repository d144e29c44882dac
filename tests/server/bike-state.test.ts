import { describe, expect, it } from 'vitest';
import { bikeState } from '../../server/state/bike-state.ts';
import type { PlacedRide } from '../../src/adjustments/adjustment-periods.ts';
import { FEWEST_SHIFTS } from '../../src/diagnosis/fewest-shifts.ts';
import { sampleEvents, sampleReport, shiftAt } from '../report/sample-report.ts';

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

describe('a bike whose newest rides shift well though no repair is logged', () => {
  it('is watched, and what was done is asked for, not called a likely fault', () => {
    const report = sampleReport();
    const nothingToTurn = { ...report.diagnosis.suggestion, namesCause: false, parameter: 'none' };
    const shiftsWellSince = { at: '2026-04-14T06:30:00.000Z', shifts: 262, trouble: 0, adjusted: false };
    const diagnosis = { ...report.diagnosis, suggestion: nothingToTurn, shiftsWellSince };
    const bad = report.cogs.map((cog) => ({ ...cog, late: cog.shifts, missed: 0, overshot: 0 }));
    const { word, reasons } = bikeState({ ...report, cogs: bad, adjustments: [], diagnosis }, []);
    expect(word).toBe('watch');
    expect(reasons.join(' ')).toMatch(/^Since the ride of 2026-04-14 it shifts well, .* Log what was done\./);
    expect(reasons.join(' ')).not.toMatch(/A fault is/);
  });
});

describe('a bike whose rides could not be weighed', () => {
  it('has too little data and no probability of a fault, however many shifts were judged', () => {
    const report = sampleReport();
    const weighed = { rides: 0, judgedShifts: 0, weakShifts: 0, events: 0, pedallingHours: 0 };
    const state = bikeState({ ...report, adjustments: [], diagnosis: { ...report.diagnosis, weighed } }, []);
    expect(state).toMatchObject({ word: 'too little data', topCause: null, faultProbability: null });
    expect(state.reasons).toContain('None of 146 judged shifts could be weighed; 30 are needed.');
  });
});

describe('a bike on which next to nothing went wrong', () => {
  const report = sampleReport();
  const cogs = (shifts: number, late: number) => [{ ...report.cogs[0], shifts, late, missed: 0, overshot: 0 }];
  /** No fault 37 %, every other cause a little. */
  const causes = report.diagnosis.causes
    .map((one) => ({ ...one, probability: one.cause === 'no-fault' ? 0.37 : 0.63 / 11 }))
    .sort((a, b) => b.probability - a.probability);
  const open = { ...report.diagnosis.suggestion, namesCause: false, parameter: 'none' };
  const state = (shifts: number, late: number, events = 0) => {
    const weighed = { ...report.diagnosis.weighed, judgedShifts: shifts, events };
    const diagnosis = { ...report.diagnosis, causes, weighed, suggestion: open };
    return bikeState({ ...report, rides: [], cogs: cogs(shifts, late), adjustments: [], diagnosis }, []);
  };

  it('is not called likely to have a fault for what is taken for granted', () => {
    expect(state(300, 2)).toMatchObject({
      word: 'fine',
      reasons: [
        '2 of 300 judged shifts late, missed or overshot: no sign of a fault, but not enough to rule faults out.',
      ],
    });
    const few = state(40, 0);
    expect(few.word).toBe('too little data');
    expect(few.reasons.join()).toMatch(/^0 of 40 judged shifts .* not enough to rule faults out\.$/);
  });

  it('is watched once something went wrong, and no fault is called likely while none stands out', () => {
    for (const one of [state(300, 20), state(300, 2, 3)]) {
      expect(one.word).toBe('watch');
      expect(one.reasons[0]).toMatch(
        /^No fault stands out: nothing mis-set \(37 %\) is likelier than any, the next is .* \(6 %\)\.$/,
      );
    }
  });
});
