import { describe, expect, it } from 'vitest';
import type { Report } from '../../../src/report/report-schema.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { verdictOf, verdictTone } from '../../../src/report/verdict-kind.ts';
import { namedCause } from '../../../web/bike/named-cause.ts';
import { quietReport } from './quiet-report.ts';

/** Nothing mis-set is likeliest by far, yet it is open which of two causes it is. */
const openBetween = (between: NonNullable<Report['diagnosis']['undecided']>['between']): Report => {
  const { diagnosis, ...rest } = quietReport('no-fault', false);
  const sentence = 'Shifts to smaller cogs plainly fail more often.';
  return { ...rest, diagnosis: { ...diagnosis, undecided: { between, becauseOf: [], sentence } } };
};

describe('a bike with a fault for sure, though no single one is as likely as none', () => {
  const report = openBetween(['cable-tension-high', 'cable-friction']);

  it('is called open between the faults, and no sound one', () => {
    const { kind, causes } = verdictOf(report);
    expect([kind, ...causes.map(({ cause }) => cause)]).toEqual(['open', 'cable-tension-high', 'cable-friction']);
    expect(verdictTone(report)).toBe('alarm');
    expect(namedCause({ state: { word: 'watch' }, report } as never)).toBeNull();
  });

  it('is watched for that reason', () => {
    const { word, reasons } = bikeState(report, []);
    expect(word).toBe('watch');
    expect(reasons[0]).toBe('Shifts to smaller cogs plainly fail more often.');
  });

  it('is not what it is where it is open between one fault and none', () => {
    const { reasons } = bikeState(openBetween(['no-fault', 'cable-friction']), []);
    expect(reasons.join(' ')).not.toContain('plainly fail');
  });
});
