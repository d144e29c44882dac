import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/report/report-schema.ts';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import { sampleReport, sampleWellSince } from './sample-report.ts';

const sample = sampleReport();
const { diagnosis } = sample;
const nothingToTurn = { ...diagnosis.suggestion, namesCause: false, parameter: 'none' };
const setting = (now: Report['diagnosis']['now']['setting']) => ({ now: { ...diagnosis.now, setting: now } });

/** The kind of verdict on the sample bike, whose likeliest cause is low cable tension, where that has so much. */
const kindAt = (probability: number, changes: Partial<Report['diagnosis']>): string => {
  const causes = diagnosis.causes.map((one, i) => (i === 0 ? { ...one, probability } : one));
  return verdictOf({ ...sample, diagnosis: { ...diagnosis, causes, ...changes } }).kind;
};

describe('a verdict on what the last adjustment left', () => {
  it('is open where the rides do not tell, unless it is known what the fault was', () => {
    expect(kindAt(0.78, setting('unsettled'))).toBe('unsettled');
    expect(kindAt(0.45, setting('unsettled'))).toBe('open');
  });

  it('calls a fault cured with few judged shifts only where it was known, with enough whatever it was', () => {
    const curedBy = (probability: number, judgedShifts: number) =>
      kindAt(probability, {
        cured: true,
        suggestion: nothingToTurn,
        weighed: { ...diagnosis.weighed, judgedShifts },
      });
    expect(curedBy(0.78, 29)).toBe('cured');
    expect(curedBy(0.45, 30)).toBe('cured');
    expect(curedBy(0.45, 29)).toBe('unnamed');
  });
});

describe('a verdict where trouble is gone with soft legs', () => {
  const soft = (changes: Partial<Report['diagnosis']>, suggestion = nothingToTurn) =>
    kindAt(0.78, { riderPart: { ...diagnosis.riderPart, goneWithSoftLegs: true }, suggestion, ...changes });

  it('is of the load alone while no part is named and nothing was done since', () => {
    expect(soft(setting('same'))).toBe('under-load');
    expect(soft(setting('same'), diagnosis.suggestion)).toBe('named');
  });

  it('is of what was done where that, or something that nobody logged, tells more', () => {
    expect(soft(setting('unsettled'))).toBe('unsettled');
    expect(soft({ ...setting('same'), shiftsWellSince: { ...sampleWellSince, entryAt: sampleWellSince.at } })).toBe(
      'put-right',
    );
  });
});
