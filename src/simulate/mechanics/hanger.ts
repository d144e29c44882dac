import type { BikeCondition } from './bike-condition.ts';

/** How far the guide pulley hangs below the hanger bolt on the smallest cog, mm, and how much more for each mm inboard. */
const DROP_MM = 42;
const SLANT = 0.85;

/** Sideways error that a bent hanger gives the guide pulley when it stands at `lateralMm`; inboard positive, mm. */
export function hangerErrorMm(condition: BikeCondition, lateralMm: number): number {
  return condition.hangerBendRad * (DROP_MM + SLANT * lateralMm) - condition.recentredMm;
}

/** The turn at the barrel that brings the middle of the cassette back, mm; what a rider does beside the trail after a fall. */
export function recentringMm(condition: BikeCondition): number {
  const middleMm = (condition.pitchMm * (condition.cogs - 1)) / 2;
  return condition.hangerBendRad * (DROP_MM + SLANT * middleMm);
}
