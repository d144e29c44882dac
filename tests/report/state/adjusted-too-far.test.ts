import { describe, expect, it } from 'vitest';
import type { Report } from '../../../src/report/report-schema.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { verdictSentence } from '../../../src/report/words/verdict-words.ts';
import { sampleReport } from '../sample-report.ts';

/** The bike of the sample report, without a lost chain, as it is after the last adjustment. */
function adjusted(now: Partial<Report['diagnosis']['now']>, changes: Partial<Report['diagnosis']> = {}): Report {
  const report = sampleReport();
  const { since } = report.diagnosis.now;
  const chainDrops = { pastLargest: 0, pastSmallest: 0, elsewhere: 0 };
  return {
    ...report,
    rides: report.rides.map((ride) => ({ ...ride, chainDrops: [] })),
    cogs: report.cogs.map((cog) => ({ ...cog, late: 0, missed: 0, overshot: 0 })),
    diagnosis: {
      ...report.diagnosis,
      ...changes,
      now: { ...report.diagnosis.now, since: { ...since, chainDrops }, ...now },
    },
  };
}

const overdone = {
  setting: 'overdone',
  fault: 'cable-tension-high',
  byLastAdjustment: true,
  pastTheMark: 0.95,
} as const;

describe('a bike whose last adjustment went too far', () => {
  it('needs service for what is wrong now, and says so as the report does', () => {
    const report = adjusted(overdone);
    const state = bikeState(report, []);
    expect(state).toMatchObject({ word: 'service', topCause: 'cable-tension-high', probability: 0.95 });
    expect(state.faultProbability).toBeGreaterThanOrEqual(0.95);
    expect(state.reasons).toContain(verdictSentence(report));
    expect(state.reasons.join(' ')).not.toMatch(/the likeliest is cable tension too low/);
  });

  it('needs service with however few shifts: a limit that was opened too far shows by a lost chain', () => {
    const weighed = { ...sampleReport().diagnosis.weighed, judgedShifts: 5 };
    const state = bikeState(adjusted({ ...overdone, fault: 'low-limit-loose', pastTheMark: 0.3 }, { weighed }), []);
    expect(state).toMatchObject({ word: 'service', topCause: 'low-limit-loose' });
    expect(state.reasons[0]).toMatch(/the last adjustment went too far: now it is low limit screw too far out/);
  });
});

describe('a bike of which nobody knows yet what the last adjustment did', () => {
  it('is watched, and says so as the report does', () => {
    const { suggestion } = sampleReport().diagnosis;
    const nothing = { suggestion: { ...suggestion, namesCause: false, parameter: 'none' } };
    const report = adjusted({ setting: 'unsettled' }, nothing);
    const { word, reasons } = bikeState(report, []);
    expect(word).toBe('watch');
    expect(reasons).toContain(verdictSentence(report));
    expect(reasons.join(' ')).not.toMatch(/the likeliest is/);
  });
});

describe('a bike that is cured', () => {
  it('counts the fault as far as it may still be there or past the mark', () => {
    const { suggestion } = sampleReport().diagnosis;
    const changes = {
      suggestion: { ...suggestion, namesCause: false, parameter: 'none' },
      cured: true,
      stillThere: 0.1,
      undecided: null,
    };
    const fault = (pastTheMark: number) =>
      bikeState(adjusted({ setting: 'cured', fault: 'no-fault', pastTheMark }, changes), []).faultProbability ?? 0;
    expect(fault(0.1) - fault(0)).toBeCloseTo(0.1 * 0.78, 6);
  });
});
