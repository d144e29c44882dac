import { counted } from '../../src/numeric/counted.ts';
import type { TakenAdjustments } from '../api/answers.ts';

/** What an adjustments file brought, as a sentence. */
export function takenAdjustments({ added, known }: Pick<TakenAdjustments, 'added' | 'known'>): string {
  if (added + known === 0) return 'It holds no adjustment.';
  if (known === 0) return `${counted(added, 'adjustment')} taken in.`;
  const here = `${known} ${known === 1 ? 'was' : 'were'} there already`;
  return added === 0 ? `Nothing new: ${here}.` : `${counted(added, 'adjustment')} taken in, ${here}.`;
}
