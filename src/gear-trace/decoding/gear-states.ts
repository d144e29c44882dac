/**
 * The hidden states: every gear driving, every gear freewheeling, and drive lost.
 * Index: mode x gears + ring x cogs + cog, the lost state last.
 */
export interface GearStates {
  readonly rings: number;
  readonly cogs: number;
  readonly gears: number;
  readonly count: number;
  readonly lost: number;
}

/** The states of a bike with so many rings and cogs. */
export function gearStates(rings: number, cogs: number): GearStates {
  const gears = rings * cogs;
  return { rings, cogs, gears, count: 2 * gears + 1, lost: 2 * gears };
}
