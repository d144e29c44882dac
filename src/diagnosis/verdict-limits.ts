/** From how likely a cause on what is said and done about it changes. Assumptions of ours, side by side since they must keep their order. */

/** Less likely than this, the likeliest cause names no part to be turned, and a bike is not said to be in order. */
export const LIKELY_ENOUGH = 0.5;
/** Less likely than this, the likeliest cause is not named alone. */
export const NAMED_ALONE = 0.6;
/** Less likely than this, a cause is counted and not explained: hardly anything speaks for it. */
export const EXPLAINED_FROM = 0.05;
/** From this on a verdict is as good as sure. */
export const ALL_BUT_SURE = 0.85;

/** A chain that was lost with at least this confidence was lost; below, it seems to have been. An assumption of ours. */
export const LOST_FOR_SURE = 0.8;
