import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/diagnosis/causes.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { sampleReport } from '../sample-report.ts';
import { quietReport } from './quiet-report.ts';

/** The likeliest now, by the bike's state. */
const likeliestOf = (report: Report) => {
  const { topCause, probability } = bikeState(report, []);
  return { topCause, probability };
};

describe('what is likeliest wrong with a bike now', () => {
  it('is nothing while that is likelier than all faults together, though an assumption turns it to one of them', () => {
    const report = quietReport('no-fault', false);
    const openWith = (none: number) => {
      const probability = (cause: string) => (cause === 'no-fault' ? none : (1 - none) / 11);
      const causes = report.diagnosis.causes.map((one) => ({ ...one, probability: probability(one.cause) }));
      const undecided = {
        between: ['no-fault', causes[1].cause] as [Cause, Cause],
        sentence: '',
        becauseOf: [],
      };
      return likeliestOf({ ...report, diagnosis: { ...report.diagnosis, causes, undecided } });
    };
    expect(openWith(0.55)).toEqual({ topCause: 'no-fault', probability: 0.55 });
    expect(openWith(0.45).topCause).not.toBe('no-fault');
  });

  it('is nothing once the fault is most likely cured, as likely as that and a bike in order together', () => {
    const { adjustments } = sampleReport();
    const report = quietReport('cable-friction', false);
    const { diagnosis } = report;
    const cured = (stillThere: number) =>
      likeliestOf({
        ...report,
        adjustments,
        diagnosis: { ...diagnosis, cured: true, stillThere, now: { ...diagnosis.now, pastTheMark: 0.1 } },
      });
    const { topCause, probability } = cured(0.05);
    expect(topCause).toBe('no-fault');
    expect(probability).toBeCloseTo(0.002 + 0.978 * (1 - 0.05 - 0.1), 9);
    expect(cured(0.6)).toEqual({ topCause: 'cable-friction', probability: 0.978 });
  });
});
