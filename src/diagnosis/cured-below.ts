/** A fault that is less likely than this to be still there after the last adjustment is called cured. */
export const CURED_BELOW = 0.25;
