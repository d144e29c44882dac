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

/**
 * Road speed in a gear at a cadence, m/s.
 *
 * @example pedallingSpeedMps(4, 75) // 5 (18 km/h)
 */
export function pedallingSpeedMps(developmentOfGearM: number, cadenceRpm: number): number {
  return (developmentOfGearM * cadenceRpm) / 60;
}

/** Teeth that the rear derailleur's arm must take up: (largest - smallest ring) + (largest - smallest cog). */
export function capacityTeeth(chainrings: readonly number[], cassette: readonly number[]): number {
  return Math.max(...chainrings) - Math.min(...chainrings) + Math.max(...cassette) - Math.min(...cassette);
}
