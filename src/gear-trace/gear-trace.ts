import type { Warning } from '../errors/warning.ts';
import type { BikeRide } from './bike-ride.ts';
import type { GearCommands } from './commands/gear-commands.ts';
import type { CogsOff } from './disagreement/cogs-off.ts';
import type { CogsOfOneCount } from './disagreement/two-cogs-one-count.ts';
import type { GearModel } from './gear-model.ts';
import type { PedallingSamples } from './samples/pedalling-samples.ts';
import type { UnsteadySpell } from './unsteady/unsteady-spells.ts';

/**
 * What a ride can tell about shifting. `full`: gear records, cadence and speed; `commands-only`: gear records without a ratio to set
 * them against, for want of cadence or of a speed that shows the gears; `ratio-only`: cadence and speed without gear records; `none`:
 * neither gear records nor such a ratio.
 */
export type EvidenceKind = 'full' | 'commands-only' | 'ratio-only' | 'none';

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
  readonly gearSource: 'recorded' | 'inferred' | 'none';
  readonly evidence: EvidenceKind;
  /** Rollout measured from the ride, mm; NaN where it cannot be. */
  readonly rolloutMm: number;
  readonly measured: { readonly chainrings: readonly (number | null)[]; readonly cassette: readonly (number | null)[] };
  /** How its gears fit the teeth as asked for, and a cog off; empty where too few gears show, and without gear records. */
  readonly cogsOff: readonly CogsOff[];
  readonly warnings: readonly Warning[];
}

/** A gear trace with what it was made from: the later stages weigh single seconds with it. `model` is null without a trace. */
export interface RideTrace extends GearTrace {
  readonly commands: GearCommands;
  /** How much later than these commands their records stand, s: 0 but where a recorder writes them down late. */
  readonly recordsLateS: number;
  readonly samples: PedallingSamples;
  readonly model: GearModel | null;
  /** Log development at each record with the speed's lag undone; NaN where there is no ratio. */
  readonly logDevelopment: Float64Array;
  /** Standard deviation of that log development; NaN where there is no ratio. */
  readonly deviation: Float64Array;
  /** Where the speed drifted across the cogs, in order of time: there nothing can be told of the chain. */
  readonly unsteady: readonly UnsteadySpell[];
  /** Cogs that its records name by one tooth count: shifts onto and from the name, and moves between the two, cannot be judged. */
  readonly ofOneCount: readonly CogsOfOneCount[];
}

/** The trace of a ride that cannot be traced: every cog unknown, the reason among the warnings. */
export function emptyTrace(
  { bike, commands, samples }: Omit<BikeRide, 'log'>,
  evidence: 'commands-only' | 'none',
  warnings: readonly Warning[],
): RideTrace {
  const count = samples.dtS.length;
  return {
    cog: new Int8Array(count).fill(-1),
    ring: new Int8Array(count).fill(-1),
    cogProbability: new Float32Array(count),
    driving: new Float32Array(count),
    gearSource: evidence === 'commands-only' ? 'recorded' : 'none',
    evidence,
    rolloutMm: Number.NaN,
    measured: { chainrings: bike.chainrings.map(() => null), cassette: bike.cassette.map(() => null) },
    cogsOff: [],
    warnings,
    commands,
    recordsLateS: 0,
    samples,
    model: null,
    logDevelopment: new Float64Array(count).fill(Number.NaN),
    deviation: new Float64Array(count).fill(Number.NaN),
    unsteady: [],
    ofOneCount: [],
  };
}
