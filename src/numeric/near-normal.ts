import { LOGISTIC_SCALE, logistic } from './logistic.ts';

/** Share of a standard normal distribution below `z`, within 0.01: a logistic curve, quick to work out and never quite 0 or 1. */
export const nearNormalBelow = (z: number): number => logistic(LOGISTIC_SCALE * z);
