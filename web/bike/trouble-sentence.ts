import { counted } from '../../src/numeric/counted.ts';
import { percent } from '../../src/numeric/percent.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import type { BikeDetail } from '../api/answers.ts';
import { percentRange } from '../words/numbers.ts';

/** How much trouble there is, as a sentence with its interval, over the rides that count and had judged shifts; null without such shifts. */
export function troubleSentence({ state, report }: Pick<BikeDetail, 'state' | 'report'>): string | null {
  if (state.troubleRate === null || !report) return null;
  const judged = ridesThatCount(report).filter(({ counts }) => counts.shifts > counts.unjudged);
  const period = state.sinceAdjustment ? 'since the last adjustment' : `over ${counted(judged.length, 'ride')}`;
  return `Of ${counted(state.judgedShifts, 'judged shift')} ${period}, ${percent(state.troubleRate)} came late, missed or went too far (95 % interval: ${percentRange(state.low, state.high)}).`;
}
