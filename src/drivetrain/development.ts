/** Wheel turns for one turn of the cranks: ring / cog. */
export function gearRatio(ringTeeth: number, cogTeeth: number): number {
  return ringTeeth / cogTeeth;
}

/**
 * Distance covered by one turn of the cranks, metres: rollout x ring / cog. NaN where the rollout is not known.
 *
 * @example developmentM(2290, 32, 51) // 1.437
 */
export function developmentM(rolloutMm: number, ringTeeth: number, cogTeeth: number): number {
  return (rolloutMm / 1000) * gearRatio(ringTeeth, cogTeeth);
}
