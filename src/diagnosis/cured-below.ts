/** A fault that is less likely than this to be still there after the last adjustment is called cured. */
export const curedBelow = 0.25;
