import { isKeepOff } from '../../diagnosis/next-step/caution-place.ts';
import { keepsOffForHanger } from '../../diagnosis/next-step/next-steps.ts';
import { HANGER_REACHES } from './state-dangers.ts';

/** Says of a cog by its teeth what a caution says of the largest or smallest cog. */
const KEEPS_OFF_COG = /\bkeep off the \d/i;

/** The same where the hanger is among what is looked at before it is ridden onto. */
const UNTIL_HANGER = /\bkeep off the \d[^.]*\bhanger\b/i;

/** Whether a bike's dangers say already, in words of their own, what a caution of its next step does: of a bent hanger, or that an end cog is kept off. */
export function saidByDanger(caution: string, dangers: readonly string[]): boolean {
  // with what to do about it, which may be for a look at that hanger only
  if (keepsOffForHanger(caution))
    return (
      dangers.some((danger) => danger.includes(`${HANGER_REACHES}. `)) ||
      (dangers.some((danger) => danger.includes(HANGER_REACHES)) && dangers.some((danger) => UNTIL_HANGER.test(danger)))
    );
  return isKeepOff(caution) && dangers.some((danger) => KEEPS_OFF_COG.test(danger));
}
