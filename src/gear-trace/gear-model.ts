/** How the sensors scatter. */
export interface RatioNoise {
  /** Standard deviation of the log development in steady pedalling, apart from the next. */
  readonly relative: number;
  /** Standard deviation of the speed itself, m/s: it weighs most at low speed. */
  readonly absoluteMps: number;
  /** Share of independent evidence in one record, 0 to 1: errors come in runs. */
  readonly independence: number;
  /** By second after a rest of the legs; nothing known where absent. */
  readonly afterRest?: readonly AfterRest[];
}

/** In one second after a rest of the legs: by how much the log development is shown off its gear's, and how much more it scatters (standard deviation). */
export interface AfterRest {
  readonly shift: number;
  readonly deviation: number;
}

/** Share of independent evidence in one record where the ride has not told its own. An assumption of ours. */
const USUAL_INDEPENDENCE = 0.6;

/** Noise before the ride has told its own. */
export const usualNoise = (relative: number): RatioNoise => ({
  relative,
  absoluteMps: 0,
  independence: USUAL_INDEPENDENCE,
});

/**
 * Log development of every gear as the trace uses it, and how sure the sensors are. Index `ring * cogs + cog`.
 */
export interface GearModel {
  readonly rings: number;
  readonly cogs: number;
  readonly logDevelopment: Float64Array;
  /** Lag of speed behind cadence, s; negative where the cadence follows the speed. */
  readonly speedLagS: number;
  readonly noise: RatioNoise;
  /** ln of the rollout in metres, from the ride. */
  readonly logRollout: number;
}
