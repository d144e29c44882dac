import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/diagnosis/causes.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { sampleReport, sampleWellSince } from '../sample-report.ts';
import { quietReport } from './quiet-report.ts';

describe('a bike on which a fault is all but sure, though nothing can be turned', () => {
  it('needs service where it is named; a cause that is not named is watched', () => {
    expect(bikeState(quietReport('cable-friction', true), []).word).toBe('service');
    expect(bikeState(quietReport('cable-friction', false), []).word).toBe('watch');
  });

  it('is never said to have one for certain', () => {
    const report = quietReport('cable-tension-high', true);
    const causes = report.diagnosis.causes.map((one) => ({
      ...one,
      probability: one.cause === 'cable-tension-high' ? 1 : 0,
    }));
    const { reasons } = bikeState({ ...report, diagnosis: { ...report.diagnosis, causes } }, []);
    expect(reasons[0]).toBe('A fault is over 99 % likely; the likeliest is cable tension too high (over 99 %).');
  });
});

describe('a bike that is likelier in order than to have any one fault', () => {
  const undecidedReport = (between: readonly [Cause, Cause] | null) => {
    const report = quietReport('no-fault', false);
    const probability = (cause: Cause) => (cause === 'no-fault' ? 0.42 : cause === 'cable-friction' ? 0.2 : 0.038);
    const causes = report.diagnosis.causes
      .map((one) => ({ ...one, probability: probability(one.cause) }))
      .sort((a, b) => b.probability - a.probability);
    const undecided = between && { between, sentence: '', reasons: [] };
    return { ...report, diagnosis: { ...report.diagnosis, causes, undecided } } as Report;
  };

  it('names none, though all together are likelier than that', () => {
    const state = bikeState(undecidedReport(null), []);
    expect(state).toMatchObject({ topCause: 'no-fault', probability: 0.42 });
    expect(state.faultProbability).toBeCloseTo(0.58, 9);
  });

  it('names the one between which and a bike in order the verdict is open', () => {
    const state = bikeState(undecidedReport(['no-fault', 'cable-friction']), []);
    expect(state).toMatchObject({ topCause: 'cable-friction', probability: 0.2 });
  });
});

describe('a bike on which no cause explains what goes wrong', () => {
  const left = (trouble: number, shifts: number) => {
    const report = quietReport('no-fault', false);
    const place = { teeth: 18, direction: null, shifts, trouble, foretold: 0.3 };
    const unexplained = { places: [place], where: 'shifts onto the 18', sentence: 'Not explained.', look: 'Look.' };
    return bikeState({ ...report, diagnosis: { ...report.diagnosis, unexplained } }, []);
  };

  it('is never fine: it needs service where that place fails often, and is watched where it does not', () => {
    expect(bikeState(quietReport('no-fault', false), []).word).toBe('fine');
    expect(left(40, 40)).toMatchObject({ word: 'service', topCause: null, probability: null, faultProbability: 0.99 });
    expect(left(5, 20).word).toBe('watch');
    expect(left(40, 40).reasons).toContain('Not explained.');
  });
});

describe('a bike that fails under hard pedalling alone', () => {
  const failing = (goneWithSoftLegs: boolean, namesCause = false) => {
    const report = quietReport('no-fault', namesCause);
    const cogs = report.cogs.map((cog) => ({ ...cog, late: Math.ceil(cog.shifts / 2) }));
    const riderPart = { ...report.diagnosis.riderPart, goneWithSoftLegs, sentence: 'Ease off.' };
    const now = { ...report.diagnosis.now, setting: 'same' as const };
    return bikeState({ ...report, cogs, diagnosis: { ...report.diagnosis, riderPart, now } }, []);
  };

  it('is watched while no part is named, and its rider is told to ease off', () => {
    expect(failing(true).word).toBe('watch');
    expect(failing(true).reasons[0]).toBe('Ease off.');
    expect(failing(false).word).toBe('service');
    expect(failing(true, true).word).toBe('service');
  });
});

describe('a bike whose rides are all left out', () => {
  const allLeftOut = (rides: number) => {
    const report = quietReport('no-fault', false);
    const weighed = { rides: 0, judgedShifts: 0, weakShifts: 0, events: 0, pedallingHours: 0 };
    return {
      ...report,
      rides: report.rides.slice(0, rides).map((ride) => ({ ...ride, leftOut: 'another-bike' as const })),
      cogs: report.cogs.map((cog) => ({ ...cog, shifts: 0 })),
      diagnosis: { ...report.diagnosis, weighed },
    };
  };

  it('has too little data, and is told why and what to do', () => {
    expect(bikeState(allLeftOut(1), [])).toMatchObject({
      word: 'too little data',
      reasons: [
        "Its only ride is left out: by the gear records it looks like another bike's. Move it to the bike that it was ridden on; if it was this one, put right how many rings and cogs it has, and their teeth.",
      ],
    });
    expect(bikeState(allLeftOut(2), []).reasons).toEqual([
      expect.stringMatching(/^All 2 of its rides are left out: by the gear records they look .* Move each to the bike/),
    ]);
  });

  it('is another than one with a ride that counts, or without any', () => {
    const { rides, ...report } = allLeftOut(2);
    for (const some of [[], [rides[0], { ...rides[1], leftOut: null }]])
      expect(bikeState({ ...report, rides: some }, []).reasons).toEqual(['No shift could be judged; 30 are needed.']);
  });
});

describe('a bike whose newest rides shift well though no repair is logged', () => {
  it('is watched, and what was done is asked for, not called a likely fault', () => {
    const report = sampleReport();
    const nothingToTurn = { ...report.diagnosis.suggestion, namesCause: false, parameter: 'none' };
    const diagnosis = { ...report.diagnosis, suggestion: nothingToTurn, shiftsWellSince: sampleWellSince };
    const bad = report.cogs.map((cog) => ({ ...cog, late: cog.shifts, missed: 0, overshot: 0 }));
    const { word, reasons } = bikeState({ ...report, cogs: bad, adjustments: [], diagnosis }, []);
    expect(word).toBe('watch');
    expect(reasons.join(' ')).toMatch(
      /^The trouble .* in the rides since 2026-04-14 .* nothing that is logged accounts for that; .* If something was done before those rides, log it\./,
    );
    expect(reasons.join(' ')).not.toMatch(/A fault is|put right|cured|shifts well/);
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
  const state = (shifts: number, late: number, events = 0, more: Partial<typeof report.diagnosis> = {}) => {
    const weighed = { ...report.diagnosis.weighed, judgedShifts: shifts, events };
    const diagnosis = { ...report.diagnosis, causes, weighed, suggestion: open, undecided: null, ...more };
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

  it('is watched while a fault is likelier than none, with what speaks for it', () => {
    const evidence = ['2 of 4 shifts onto the smallest cog (11) were late or missed.'];
    const leading = { cause: 'high-limit-tight', probability: 0.39, evidence } as const;
    const one = state(300, 2, 0, { causes: [leading, ...causes.filter(({ cause }) => cause !== leading.cause)] });
    expect(one.word).toBe('watch');
    expect(one.reasons[0]).toBe(
      `A fault is 63 % likely; the likeliest is high limit screw too far in (39 %). ${evidence[0]}`,
    );
  });

  it('is watched while an assumption turns whether there is a fault', () => {
    const undecided = { between: ['no-fault', 'cable-tension-high'], becauseOf: [], sentence: '' };
    expect(state(300, 2, 0, { undecided } as never).word).toBe('watch');
  });
});
