import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { inOrderOfTime } from '../../adjustments/in-order-of-time.ts';
import { endOfLimit, limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { canBring } from '../likelihood/onset-options.ts';
import { type LimitTrial, limitTrial } from './limit-trial.ts';
import type { NowFacts } from './now-facts.ts';
import { sinceFirstRide } from './since-first-ride.ts';

/** The trial of each end cog. */
export type LimitTrials = Readonly<Record<CassetteEnd, LimitTrial>>;

/** How each end cog fared before and since its limit was last seen to. Looks at its limit or at the hanger count. */
export function trialsNow({
  rides,
  adjustments,
  bike,
  evidence,
}: Pick<NowFacts, 'rides' | 'adjustments' | 'bike' | 'evidence'>): LimitTrials {
  const trialOf = (end: CassetteEnd): LimitTrial => {
    const looked = evidence.looks.filter(({ parameter }) => ['hanger', limitAt[end].parameter].includes(parameter));
    const done = inOrderOfTime([...adjustments, ...looked.map((look) => ({ ...look, amount: 0 }))]);
    return limitTrial(end, rides, sinceFirstRide(done, rides), bike.cassette.length);
  };
  return { 'past-largest': trialOf('past-largest'), 'past-smallest': trialOf('past-smallest') };
}

/** The trial by which a cause is judged: a limit screw's, where what was turned touched that limit. Else null. */
export function trialOfCause(cause: Cause, trials: LimitTrials, turned: readonly Adjustment[]): LimitTrial | null {
  const end = endOfLimit(cause);
  return end && turned.some(({ parameter }) => canBring(cause, parameter)) ? trials[end] : null;
}
