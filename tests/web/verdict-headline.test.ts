import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { sampleReport } from '../report/sample-report.ts';

function headline(top: Cause, probability: number, changes: Partial<Report['diagnosis']>): string {
  const report = sampleReport();
  const { diagnosis } = report;
  const causes = [{ ...diagnosis.causes[0], cause: top, probability }, ...diagnosis.causes.slice(1)];
  return verdictHeadline({
    bike: { ...report.bike, actuation: 'electronic' },
    state: { word: 'watch' },
    report: { ...report, diagnosis: { ...diagnosis, causes, ...changes } },
  } as never);
}

describe('verdictHeadline', () => {
  it('says that nothing is wrong only where no assumption turns that', () => {
    const undecided = { between: ['no-fault', 'hanger-bent'], becauseOf: ['x'], sentence: 'Undecided.' } as never;
    expect(headline('no-fault', 0.8, {})).toBe('Nothing points to a mis-set part');
    expect(headline('no-fault', 0.8, { undecided })).toMatch(/^Open between nothing mis-set and/);
  });

  it('tells a cause with nothing to turn from too little evidence', () => {
    const { suggestion } = sampleReport().diagnosis;
    const step = (namesCause: boolean) => ({ suggestion: { ...suggestion, namesCause, parameter: 'none' } });
    expect(headline('cable-friction', 0.98, step(true))).toBe('Derailleur moves stiffly');
    expect(headline('cable-friction', 0.98, step(false))).toBe('Too little evidence to name a part');
  });
});
