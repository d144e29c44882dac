import type { Warning } from '../errors/warning.ts';

/** What a ride can tell about shifting. `full`: gear records, cadence and speed; `commands-only`: gear records without
 * cadence; `ratio-only`: cadence and speed without gear records; `none`: neither, or speed that was not ridden. */
export type Evidence = 'full' | 'commands-only' | 'ratio-only' | 'none';

/**
 * Where the chain was at each record of the ride. Columns share the ride log's index.
 * Cogs are indices into the cassette (0 = smallest), rings into the chainrings (0 = smallest), -1 = not known.
 */
export interface GearTrace {
  readonly cog: Int8Array;
  readonly ring: Int8Array;
  /** Probability that `cog` is right, 0 where it is -1. */
  readonly cogProbability: Float32Array;
  /** Probability that the chain was driving the wheel (not freewheeling, not lost). */
  readonly driving: Float32Array;
  /** Probability that drive was lost: chain off. */
  readonly driveLost: Float32Array;
  readonly gearSource: 'recorded' | 'inferred' | 'none';
  readonly evidence: Evidence;
  /** Rollout measured from the ride, mm; NaN where it cannot be. */
  readonly rolloutMm: number;
  /** How much later the speed-to-cadence ratio follows the gear record, s; NaN without gear records. */
  readonly sensorLagS: number;
  /** Spread (standard deviation) of the log ratio in steady pedalling; NaN where unknown. */
  readonly ratioNoise: number;
  readonly measured: { readonly chainrings: readonly (number | null)[]; readonly cassette: readonly (number | null)[] };
  readonly warnings: readonly Warning[];
}
