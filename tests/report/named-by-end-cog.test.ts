import { expect, it } from 'vitest';
import { adjustmentEntries } from '../../src/report/words/adjustment-entries.ts';
import { sampleReport } from './sample-report.ts';

it('names a part that is judged by its end cog where it was done beside other work', () => {
  const [sample] = sampleReport().adjustments;
  const made = { ...sample, group: 0, together: null, amount: null, unit: 'done', sharedPeriod: true };
  const end = { asked: 5, shifts: 5, reached: 5, trouble: 3, lost: 3 };
  const endCog = { teeth: 10, end: 'past-smallest', before: end, after: { ...end, lost: 1 } } as const;
  const hanger = { ...made, parameter: 'hanger', endCog, probabilityBetter: 0.7 };
  const cable = { ...made, parameter: 'cable-and-housing', endCog: null };
  const [said] = adjustmentEntries([hanger, cable]);
  expect(said).toMatch(/together they/i);
  expect(said).toMatch(/Derailleur hanger, by its end cog alone: not decided yet whether it helped/);
  expect(adjustmentEntries([hanger]).join(' ')).not.toMatch(/by its end cog alone/);
});
