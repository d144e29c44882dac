import { COG_TEETH, RING_TEETH } from '../drivetrain/tooth-limits.ts';

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

const within = (teeth: number, { least, most }: { readonly least: number; readonly most: number }): number =>
  teeth >= least && teeth <= most ? teeth : 0;

/** A tooth count that a cog can have, else 0: unknown. */
export const possibleCog = (teeth: number): number => within(teeth, COG_TEETH);
/** A tooth count that a chainring can have, else 0: unknown. */
export const possibleRing = (teeth: number): number => within(teeth, RING_TEETH);
