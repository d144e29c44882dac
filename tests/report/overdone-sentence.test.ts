import { expect, it } from 'vitest';
import type { Report } from '../../src/report/report-schema.ts';
import { overdoneSentence } from '../../src/report/words/overdone-sentence.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { sampleReport } from './sample-report.ts';

/** Friction against which tension was turned too far, with the next step about a part. */
function turnedAgainstFriction(parameter: string): Report {
  const { diagnosis, ...rest } = sampleReport();
  return {
    ...rest,
    diagnosis: {
      ...diagnosis,
      causes: [{ cause: 'cable-friction', probability: 0.98, evidence: [] }],
      undecided: null,
      suggestion: { ...diagnosis.suggestion, parameter, namesCause: true },
      now: { ...diagnosis.now, setting: 'overdone', fault: 'cable-tension-low', byLastAdjustment: true },
    },
  };
}

it('says that a cable which sticks is there still where that is mended before the clicks turned against it', () => {
  const headline = (report: Report): string =>
    verdictHeadline({ bike: report.bike, state: { word: 'service', judgedShifts: 600 }, report } as never);
  const still = turnedAgainstFriction('cable-and-housing');
  expect(overdoneSentence(still)).toMatch(
    /^It is friction in cable and housing \(98 %\), and the last adjustment went too far: now it is cable tension too low as well;/,
  );
  expect(headline(still)).toBe('Friction in cable and housing, and the last adjustment went too far');
  const back = turnedAgainstFriction('cable-tension');
  expect(overdoneSentence(back)).toMatch(/^It was friction .* too far: now it is cable tension too low;/);
  expect(headline(back)).toBe('The last adjustment went too far: cable tension too low');
});
