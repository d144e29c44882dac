import { counted } from '../../src/numeric/counted.ts';
import { percent } from '../../src/numeric/percent.ts';
import type { BikeDetail } from '../api/answers.ts';
import { percentRange } from '../words/numbers.ts';
import { troublePeriod } from '../words/trouble-period.ts';

/** How much trouble there is and what that counts, as a sentence with its interval; null without judged shifts. */
export function troubleSentence({ state }: Pick<BikeDetail, 'state'>): string | null {
  if (state.troubleRate === null) return null;
  return `Of ${counted(state.judgedShifts, 'judged shift')} ${troublePeriod(state)}, ${percent(state.troubleRate)} came late, missed or went too far (95 % interval: ${percentRange(state.low, state.high)}).`;
}
