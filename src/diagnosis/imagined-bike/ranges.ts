/** Value of the standard logistic distribution at the share `u`. */
export const logit = (u: number): number => Math.log(u / (1 - u));

/** Value at the share `u` of a range. */
export const between = ([low, high]: readonly [number, number], u: number): number => low + (high - low) * u;
/** The same where the range counts in proportions. */
export const betweenOnLogScale = ([low, high]: readonly [number, number], u: number): number => low * (high / low) ** u;
