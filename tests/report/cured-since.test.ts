import { expect, it } from 'vitest';
import { curedSentence } from '../../src/report/words/cured-sentence.ts';
import { sampleReport } from './sample-report.ts';

const sample = sampleReport();
const [cure] = sample.adjustments;
const chain = {
  ...{ ...cure, at: '2026-04-20T18:00:00.000Z', parameter: 'chain' as const },
  ...{ amount: null, group: cure.group + 1 },
};

/** What is said of a cure of which it is open what it cured, where the last work was done at a moment. */
function said(at: string, adjustments: typeof sample.adjustments): string {
  const { diagnosis } = sample;
  const undecided = {
    between: ['cable-tension-low', 'cable-friction'] as ['cable-tension-low', 'cable-friction'],
    ...{ becauseOf: ['x'], sentence: '' },
  };
  const now = { ...diagnosis.now, since: { ...diagnosis.now.since, at } };
  return curedSentence({ ...sample, adjustments, diagnosis: { ...diagnosis, cured: true, undecided, now } });
}

it('counts what holds since a cure from the last work on, by its day where the cure was earlier', () => {
  expect(said(cure.at, [cure])).toMatch(/cured what was wrong: since then /);
  expect(said(chain.at, [cure, chain])).toMatch(/cured what was wrong: since 2026-04-20 /);
});
