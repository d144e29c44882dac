import { describe, expect, it } from 'vitest';
import { dropSignsReport } from '../../src/report/drop-signs-report.ts';
import { chainDropSchema, skipSchema } from '../../src/report/ride-report-schema.ts';

describe('dropSignsReport', () => {
  const signs = dropSignsReport([
    { sign: 'beforehand', value: Number.NaN, logOdds: -9 },
    { sign: 'legs-faster', value: Math.log(1.4), logOdds: 4 },
    { sign: 'legs-past-usual', value: 1.25, logOdds: 4 },
    { sign: 'past-gear', value: Number.POSITIVE_INFINITY, logOdds: 3 },
    { sign: 'halt-after', value: 11.96, logOdds: 1.504 },
    { sign: 'halt-lasts', value: Number.POSITIVE_INFINITY, logOdds: 2 },
  ]);

  it('gives shares in percent, other measures in their unit, and null for what has no number or no end', () => {
    expect(signs.map(({ sign, value, unit, logOdds }) => [sign, value, unit, logOdds])).toEqual([
      ['beforehand', null, null, -9],
      ['legs-faster', 40, '%', 4],
      ['legs-past-usual', 25, '%', 4],
      ['past-gear', null, '%', 3],
      ['halt-after', 12, 's', 1.5],
      ['halt-lasts', null, 's', 2],
    ]);
  });

  it('fits the report, which may also lack it', () => {
    const drop = { at: '2026-04-12T18:30:00.000Z', side: 'unknown', afterShiftTo: null, confidence: 0.9 };
    expect(chainDropSchema.parse({ ...drop, signs }).signs).toEqual(signs);
    expect(chainDropSchema.parse(drop).signs).toBeUndefined();
    expect(() => chainDropSchema.parse({ ...drop, signs: [{ ...signs[0], sign: 'hunch' }] })).toThrow(/sign/);
    expect(skipSchema.parse({ at: drop.at, teeth: 15, confidence: 0.8 }).leapPercent).toBeUndefined();
  });
});
