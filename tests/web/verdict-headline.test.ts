import { describe, expect, it } from 'vitest';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { sampleReport } from '../report/sample-report.ts';

const sample = sampleReport();
const headline = (report: object, state: object): string =>
  verdictHeadline({ bike: sample.bike, state, report } as never);

describe('the headline of a verdict', () => {
  it('says of a bike without a report whether its rides are worked through again or it has none', () => {
    const none = (pending: number): string =>
      verdictHeadline({ bike: sample.bike, state: {}, report: null, pending } as never);
    expect(none(3)).toBe('Its rides are being worked through again');
    expect(none(0)).toBe('No ride has been read yet');
  });

  it("is that no fault stands out where no single one does, whatever the bike's state", () => {
    const [first, second] = ['no-fault', 'high-limit-loose'].map((cause) => ({
      cause,
      probability: 0.3,
      evidence: [],
    }));
    const { suggestion } = sample.diagnosis;
    const diagnosis = {
      ...sample.diagnosis,
      causes: [first, second],
      undecided: null,
      suggestion: { ...suggestion, namesCause: false },
    };
    const report = { ...sample, adjustments: [], diagnosis };
    expect(headline(report, { word: 'fine', judgedShifts: 98 })).toBe('No fault stands out');
    expect(headline(report, { word: 'watch', judgedShifts: 98 })).toBe('No fault stands out');
  });

  it('names the cog that plainly fails where no part is named for it', () => {
    const { suggestion } = sample.diagnosis;
    const said = (failsOnto: number | null) =>
      headline(
        { ...sample, diagnosis: { ...sample.diagnosis, failsOnto, suggestion: { ...suggestion, namesCause: false } } },
        { word: 'watch', judgedShifts: 98 },
      );
    expect(said(37)).toBe('Shifts onto the 37 fail: which part it is is open');
    expect(said(null)).toBe('Too little evidence to name a part');
  });

  it.each([
    ['inferred', 'ratio-only', 'No gear changes were recorded', /^Its rides hold no gear changes, so/],
    ['recorded', 'commands-only', 'Nothing shows where the chain was', /^Its rides do not show where/],
    [
      'recorded',
      'commands-only',
      'No cadence was recorded',
      /^Its rides hold gear changes but no cadence/,
      'no-cadence',
    ],
    ['recorded', 'full', 'Too few judged shifts yet to say', /^No shift could be judged; 30 are needed/],
  ] as const)(
    'and the reason tell rides with gears %s and evidence %s',
    (gearSource, evidence, words, reason, code?: string) => {
      const warnings = code ? [{ code, message: '' }] : [];
      const rides = sample.rides.map((ride) => ({ ...ride, gearSource, evidence, warnings }));
      const cogs = sample.cogs.map((cog) => ({
        ...cog,
        shifts: 0,
        late: 0,
        missed: 0,
        overshot: 0,
        troubleRate: null,
      }));
      const weighed = { ...sample.diagnosis.weighed, judgedShifts: 0 };
      const report = { ...sample, rides, cogs, adjustments: [], diagnosis: { ...sample.diagnosis, weighed } };
      const state = bikeState(report, []);
      expect(headline(report, state)).toBe(words);
      expect(state.reasons[0]).toMatch(reason);
      expect(headline(report, { ...state, judgedShifts: 12 })).toBe('Too few judged shifts yet to say');
    },
  );
});
