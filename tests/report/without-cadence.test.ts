import { describe, expect, it } from 'vitest';
import { withoutCadence } from '../../src/report/without-cadence.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleReport } from './sample-report.ts';

const { diagnosis } = sampleReport();
const open = { ...diagnosis, suggestion: { ...diagnosis.suggestion, namesCause: false, parameter: 'none' } };
const ride = (gearSource: 'recorded' | 'none', code: string, evidence: 'full' | 'commands-only' | 'none') => ({
  ...{ gearSource, evidence, leftOut: null },
  warnings: [{ code, message: '' }],
});
const silent = ride('recorded', 'no-cadence', 'commands-only');

describe('rides with gear records but without a cadence', () => {
  it('are told that more of them will not let a shift be judged, and what would', () => {
    const { suggestion, checkRide } = withoutCadence(open, [silent, ride('none', '', 'none')]);
    expect(suggestion.action).toContain('more rides without one will not change that');
    expect(suggestion.steps).toEqual([suggestion.action]);
    expect(suggestion.start).toBe('Pair a cadence sensor with the recorder; the gear changes are there already.');
    expect(suggestion.cautions).toEqual(open.suggestion.cautions);
    expect([checkRide.blocks, checkRide.sentences]).toEqual([[], []]);
  });

  it('keep the step of a verdict that names a cause', () => {
    expect(withoutCadence(diagnosis, [silent]).suggestion).toEqual(diagnosis.suggestion);
  });

  it.each([
    ['beside a ride with a cadence', [silent, ride('recorded', '', 'full')]],
    [
      'where it is something else that hides the chain',
      [silent, ride('recorded', 'few-sound-readings', 'commands-only')],
    ],
    ['without any gear record', [ride('none', 'no-cadence', 'none')]],
    ['without rides', []],
  ])('change nothing %s', (_where, rides) => {
    expect(withoutCadence(open, rides)).toBe(open);
  });

  it('have their reason stand first in the verdict', () => {
    const weighed = { ...diagnosis.weighed, judgedShifts: 0, weakShifts: 215, events: 0 };
    const report = { ...sampleReport(), adjustments: [], rides: [silent], diagnosis: { ...open, weighed } };
    expect(verdictSentence(report)).toMatch(
      /^Without cadence no shift can be judged: the gear changes are there \(215 shifts\).*Pair a cadence sensor\.$/,
    );
  });
});
