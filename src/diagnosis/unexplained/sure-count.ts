/** Fewer that surely went wrong may have been misread together. An assumption of ours. */
export const FEWEST_SURE = 4;

/** Sure ones add up to a hair less than their number. */
const A_HAIR = 0.1;

/** How many of some doubtful events there surely were, from the sum of their probabilities. */
export const sureCount = (sum: number): number => Math.floor(sum + A_HAIR);
