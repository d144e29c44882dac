/**
 * Log development of every gear as the trace uses it, and how sure the sensors are. Index `ring * cogs + cog`.
 */
export interface GearModel {
  readonly rings: number;
  readonly cogs: number;
  readonly logDevelopment: Float64Array;
  /** Lag of speed behind cadence, s; negative where the cadence follows the speed. */
  readonly speedLagS: number;
  /** Standard deviation of the log development in steady pedalling. */
  readonly noise: number;
  /** ln of the rollout in metres, from the ride. */
  readonly logRollout: number;
}
