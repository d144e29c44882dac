import type { ChainDropEvent, ShiftEvent } from './ride-events.ts';

/** A drop this soon after the command leaves no time to settle on the commanded cog. */
const WITHIN_S = 6;
/** The chain may have driven on the commanded cog for a moment on its way past it. */
const NEVER_SETTLED = 0.8;

/** Calls a judged shift missed where the chain came off right after it: it never settled on the commanded cog. */
export function markCutShifts(shifts: readonly ShiftEvent[], drops: readonly ChainDropEvent[]): ShiftEvent[] {
  return shifts.map((shift) => {
    const drop = drops.find(
      ({ timeS, afterShiftTo }) =>
        afterShiftTo === shift.toCog && timeS >= shift.timeS && timeS - shift.timeS <= WITHIN_S,
    );
    if (!drop || shift.outcome === 'unjudged' || shift.outcome === 'missed') return shift;
    const cut = NEVER_SETTLED * drop.confidence;
    const { clean, late, missed, overshot } = shift.probability;
    const probability = {
      clean: clean * (1 - cut),
      late: late * (1 - cut),
      missed: missed * (1 - cut) + cut,
      overshot: overshot * (1 - cut),
    };
    return cut > 0.5
      ? { ...shift, outcome: 'missed', crankRevs: null, confidence: probability.missed, probability }
      : { ...shift, probability };
  });
}
