import { bisectRight } from 'd3-array';

/** Index of the first time after `t`; the length where there is none, and for NaN. `timeS` must rise. */
export const firstAfter = (timeS: Float64Array, t: number): number => bisectRight(timeS, t);
