import type { TroubleTally } from '../cogs/trouble-tally.ts';
import type { TroubleCount } from './compare-rates.ts';

/** A tally's judged shifts, and how many of them went wrong in any way. */
export const troubleOf = ({
  late,
  missed,
  overshot,
  shifts,
}: Pick<TroubleTally, 'late' | 'missed' | 'overshot' | 'shifts'>): TroubleCount => ({
  trouble: late + missed + overshot,
  shifts,
});
