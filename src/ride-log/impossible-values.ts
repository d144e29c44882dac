/** Bounds beyond which a value is an instrument's fault, never a ride. */
const POSSIBLE = {
  /** 144 km/h. */
  speed: { least: 0, most: 40, unit: 'm/s' },
  cadence: { least: 0, most: 230, unit: 'rpm' },
  power: { least: 0, most: 3000, unit: 'W' },
} as const;

/** The columns that have bounds. */
export type BoundedColumn = keyof typeof POSSIBLE;

/**
 * Sets values that cannot be true to NaN, in place, and returns how many there were. 0 stays 0: standing still and
 * not pedalling are values.
 */
export function setAsideImpossible(column: BoundedColumn, values: Float64Array): number {
  const { least, most } = POSSIBLE[column];
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]) || (values[i] >= least && values[i] <= most)) continue;
    values[i] = NaN;
    count++;
  }
  return count;
}

/** The bounds in words. */
export const possibleRange = (column: BoundedColumn): string => {
  const { least, most, unit } = POSSIBLE[column];
  return `${least} to ${most} ${unit}`;
};

/** A tooth count within what cogs (7 to 60) or rings (16 to 70) can have, else 0: unknown. */
export const possibleCog = (teeth: number): number => (teeth >= 7 && teeth <= 60 ? teeth : 0);
export const possibleRing = (teeth: number): number => (teeth >= 16 && teeth <= 70 ? teeth : 0);
