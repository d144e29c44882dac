/** A number as the truth file holds it: three decimals. */
export const rounded = (value: number): number => Math.round(value * 1000) / 1000;

/** The same; null where there is no value. */
export const roundedOrNull = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : rounded(value);
