/**
 * Standard deviations in one median absolute deviation of normally distributed values: 1 / 0.6745, the 75 % point of the normal
 * distribution (Hampel 1974).
 */
export const DEVIATIONS_PER_MAD = 1.4826;
