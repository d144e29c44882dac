import { expect, it } from 'vitest';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleReport } from './sample-report.ts';

it('says which cog plainly fails where no part is named for it yet', () => {
  const { diagnosis, ...rest } = sampleReport();
  const said = (failsOnto: number | null, namesCause = false): string[] => {
    const suggestion = { ...diagnosis.suggestion, namesCause };
    const report = { ...rest, diagnosis: { ...diagnosis, suggestion, failsOnto, unexplained: null } };
    return [verdictOf(report).kind, verdictSentence(report)];
  };
  expect(said(37)).toEqual([
    'unnamed',
    'Shifts onto the 37 plainly fail more often than all others; which part it is is not told yet: cable tension too low comes first (78 %).',
  ]);
  expect(said(null)[1]).toMatch(/^No part is named yet: cable tension too low comes first \(78 %\)/);
  expect(said(37, true)[1]).toMatch(/^Likeliest: cable tension too low/);
});
