import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { cableBike, cassette, type Pattern, patternRide } from './pattern-ride.ts';

const bad = cassette.indexOf(24);
const verdictOn = (pattern: (cog: number, larger: boolean) => Pattern) => {
  const rides = [0, 1, 2].map((day) => patternRide({ pattern, day, shifts: 16 }));
  return diagnose({ bike: cableBike, rides, adjustments: [] });
};

describe('one cog in the middle that fails both ways (bent teeth or a wrong spacer spoil a cog from either side: common practice, no source)', () => {
  it('is no fault of the gap or the cable, though the cogs next to it suffer when the chain passes it', () => {
    const verdict = verdictOn((cog, larger) => {
      if (cog === bad) return { late: 0.3, missed: 0.25 };
      return cog === bad + 1 && larger ? { late: 0.15 } : cog === bad - 1 && !larger ? { late: 0.25 } : {};
    });
    expect(verdict.causes[0].cause, JSON.stringify(verdict.causes.slice(0, 3))).toBe('no-fault');
    expect(verdict.suggestion.parameter).toBe('none');
    expect(verdict.unexplained?.places.some(({ teeth }) => teeth === 24)).toBe(true);
  });

  it('does not take the few largest cogs, failing to larger, for one', () => {
    const gap = verdictOn((cog, larger) => (larger && cog >= cassette.length - 3 ? { late: 0.4, missed: 0.05 } : {}));
    expect(gap.causes[0].cause).toBe('pulley-gap-small');
  });
});
