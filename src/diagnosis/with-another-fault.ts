import type { Diagnosis, Onset } from './diagnosis.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import type { BikeNow } from './now/bike-now.ts';
import { unknownOnset } from './posterior/onset.ts';

/** How a fault began that is looked at from the last adjustment on: there from the first of these rides, it may have been there before. */
export const onsetSince = (began: Onset): Onset => (began.kind === 'steady' ? unknownOnset : began);

/** What is wrong now by the rides since alone; where a chain was lost and whether its limit holds since, all rides say. */
export const keepingWhatWasLost = (
  alone: BikeNow,
  { now: { since, keepOff, trials } }: Pick<SuggestionFacts, 'now'>,
): BikeNow => ({
  ...alone,
  since,
  keepOff,
  trials,
});

/** The verdict of all rides on what was wrong at first, with that of the rides since on what is wrong now and on what to do. */
export function withAnotherFault(whole: Diagnosis, alone: Diagnosis): Diagnosis {
  const { causes, weighed, onset, undecided } = alone;
  return {
    ...whole,
    ...{ lateralOffsetMm: alone.lateralOffsetMm, lateralErrorMm: alone.lateralErrorMm, clicks: alone.clicks },
    ...{ riderPart: alone.riderPart, separates: alone.separates, checkRide: alone.checkRide },
    ...{ limitOrHanger: alone.limitOrHanger, unexplained: alone.unexplained },
    ...{ suggestion: alone.suggestion, wrongWays: alone.wrongWays },
    now: { ...whole.now, fault: causes[0].cause, setting: 'another' },
    anotherSince: { causes, weighed, onset, undecided },
  };
}
