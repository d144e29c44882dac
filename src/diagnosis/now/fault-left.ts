import { isLoose } from '../cassette-ends.ts';
import { isTried, type LimitTrial } from './limit-trial.ts';
import type { NowFacts } from './now-facts.ts';
import { stillThere } from './still-there.ts';

/** Whether chains were lost past an end, and its limit was screwed in since: its own end cog then says more than how far a turn may reach. */
export const provedByTrial = (trial: LimitTrial | null, turnedRight: boolean): trial is LimitTrial =>
  trial !== null && turnedRight && trial.before.lost > 0;

/** How likely a cause is still there as it was named: by the imagined bikes, or where its end cog says more, by that. */
export function faultLeft(
  { particles, cause }: Pick<NowFacts, 'particles' | 'cause'>,
  trial: LimitTrial | null,
  turnedRight: boolean,
): number {
  if (trial && !isTried(cause, trial)) return 1;
  return provedByTrial(trial, turnedRight) && isLoose(cause) ? 1 - trial.holds : stillThere(particles, cause);
}
