import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/diagnosis/causes.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import type { Diagnosis, DiagnosisRide } from '../../../src/diagnosis/diagnosis.ts';
import { families, generateRides } from '../event-generator.ts';
import { cableBike, cassette, type Pattern, patternRide } from '../pattern-ride.ts';

const last = cassette.length - 1;
const verdict = (...rides: DiagnosisRide[]): Diagnosis => diagnose({ bike: cableBike, rides, adjustments: [] });
const ridden = (day: number, pattern: (cog: number, larger: boolean) => Pattern): DiagnosisRide =>
  patternRide({ pattern, day });
const inOrder = (): Pattern => ({});
const on21 = (cog: number): Pattern => (cassette[cog] === 21 ? { missed: 1 } : {});

describe('a middle cog that fails from either side, all others in order', () => {
  const found = verdict(ridden(0, on21), ridden(1, on21));

  it('is named, since no cause explains it', () => {
    expect(found.causes[0].cause).toBe('no-fault');
    expect(found.unexplained?.places).toEqual([
      { teeth: 21, direction: null, shifts: 48, trouble: 48, foretold: expect.any(Number) },
    ]);
    expect(found.unexplained?.places[0].foretold).toBeLessThan(2);
    expect(found.unexplained?.sentence).toMatch(
      /^Explained by no single cause: 48 of 48 shifts onto the 21 went wrong, where .*; of the 480 others none did\.$/,
    );
  });

  it('is to be looked at, and nothing is turned or left as it is', () => {
    const { steps, verify, parameter } = found.suggestion;
    expect(steps).toEqual([
      expect.stringMatching(/why shifts onto the 21 go wrong\. Look at the 21 for bent or worn teeth/),
    ]);
    expect(parameter).toBe('none');
    expect(verify).toMatch(/shifts onto the 21: a cure shows/);
    expect(found.checkRide.blocks).toEqual([]);
    expect(found.separates).toBeNull();
  });

  it('is one no longer once its newest shifts all go well', () => {
    expect(verdict(ridden(0, on21), ridden(1, inOrder)).unexplained).toBeNull();
  });
});

describe('a second fault', () => {
  const both = (cog: number, larger: boolean): Pattern =>
    (cog === 0 && !larger) || (cog === last && larger) ? { missed: 1 } : {};

  it('beside a limit is told beside it, with the screw that is the next to look at', () => {
    const found = verdict(ridden(0, both));
    const [{ cause }] = found.causes;
    expect(['low-limit-tight', 'high-limit-tight']).toContain(cause);
    const left = cause === 'high-limit-tight' ? 51 : 10;
    expect(found.unexplained?.places.map(({ teeth }) => teeth)).toEqual([left]);
    expect(found.unexplained?.sentence).toMatch(
      /^Not explained by a (low|high) limit screw too far in: 12 of 12 shifts onto the/,
    );
    expect(found.unexplained?.look).toMatch(/guide pulley should .*stand/);
    expect(found.suggestion.action).toContain(found.unexplained?.look);
    // either screw is as likely, and each explains its own end
    expect(found.causes[1].probability).toBeGreaterThan(0.3);
  });

  it('that shows on several cogs one way is looked for in the indexing', () => {
    const slow = (cog: number, larger: boolean): Pattern =>
      cog === 0 && !larger ? { missed: 1 } : larger && cog >= 4 && cog <= 6 ? { late: 0.7 } : {};
    const found = verdict(ridden(0, slow));
    expect(found.causes[0].cause).toBe('high-limit-tight');
    expect(found.unexplained?.where).toBe('shifts to larger onto the 18, 21 and 24');
    expect(found.unexplained?.look).toMatch(/clicks anticlockwise at the barrel, one at a time/);
    expect(found.suggestion.parameter).toBe('high-limit');
    expect(found.suggestion.steps.at(-1)).toMatch(
      /^Look too at what that leaves unexplained, shifts to larger onto the 18/,
    );
  });
});

describe('what one cause explains', () => {
  it.each([
    ['nothing', inOrder],
    ['a limit', (cog: number, larger: boolean) => (cog === last && larger ? { missed: 1 } : {})],
    ['a direction', (_: number, larger: boolean) => (larger ? { late: 0.3, missed: 0.1 } : {})],
    ['a few late shifts anywhere', () => ({ late: 0.05 })],
    ['two misses onto one cog', (cog: number, larger: boolean) => (cog === 5 && larger ? { missed: 0.17 } : {})],
  ] as const)('leaves nothing unexplained: %s', (_, pattern) => {
    expect(verdict(ridden(0, pattern)).unexplained).toBeNull();
  });

  it.each(families)('nor on bikes made by other rules (%s)', (family) => {
    for (const cause of ['no-fault', 'cable-tension-low', 'high-limit-tight', 'hanger-bent'] as Cause[]) {
      const rides = generateRides({ cause, family, severity: 'severe', rides: 2, seed: 5, shiftsPerRide: 90 });
      expect(verdict(...rides).unexplained, cause).toBeNull();
    }
  });
});
