import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ChainDropEvent, OutcomeProbability } from '../ride-events.ts';

/** A drop this soon after the command leaves no time to settle on the commanded cog. */
const WITHIN_S = 6;
/** The chain may have driven on the commanded cog for a moment on its way past it. */
const NEVER_SETTLED = 0.8;

/** Moves a shift's chances to a miss as far as the chain came off right after it: then it never settled on the commanded cog. */
export function cutByDrop(
  { clean, late, missed, overshot }: OutcomeProbability,
  shift: Pick<CommandedShift, 'timeS' | 'toCog'>,
  drops: readonly ChainDropEvent[],
): OutcomeProbability {
  const drop = drops.find(
    ({ timeS, afterShiftTo }) =>
      afterShiftTo === shift.toCog && timeS >= shift.timeS && timeS - shift.timeS <= WITHIN_S,
  );
  const cut = drop ? NEVER_SETTLED * drop.confidence : 0;
  return {
    clean: clean * (1 - cut),
    late: late * (1 - cut),
    missed: missed * (1 - cut) + cut,
    overshot: overshot * (1 - cut),
  };
}
