import { expect, it } from 'vitest';
import type { BikeDetail } from '../../web/api/answers.ts';
import { comparesLast } from '../../web/bike/compares-last.ts';
import { sampleReport } from '../report/sample-report.ts';

it('compares with what was judged before the last adjustment, and with nothing where that is none', () => {
  const report = sampleReport();
  const [made] = report.adjustments;
  const shown = (shifts: number): BikeDetail['report'] => {
    const cogs = made.cogs.map((cog) => ({ ...cog, before: { ...cog.before, shifts } }));
    return { ...report, adjustments: [{ ...made, cogs }] } as unknown as BikeDetail['report'];
  };
  expect(comparesLast(shown(7))).toBe(true);
  expect(comparesLast(shown(0))).toBe(false);
  expect(comparesLast(null)).toBe(false);
});
