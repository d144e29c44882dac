import type { Bike } from '../../drivetrain/bike.ts';
import type { FaultCause } from './fault-causes.ts';
import type { WorkDone } from './work-done.ts';

/** Where is ridden. */
export type TerrainKind = 'flat' | 'rolling' | 'hilly' | 'off-road' | 'town';
/** How the rides are written. */
export type RideFormat = 'fit' | 'csv' | 'tcx';

/** When the fault is there. Sudden: from `atRide` on (counted from 0; a fraction is a moment within that ride). Gradual: grows from nothing to its full size over all rides. */
export type FaultOnset = 'from-start' | 'gradual' | { readonly atRide: number };

/**
 * What to simulate. Everything but `cause` and `seed` has a default; the ones drawn from the seed (satellite or wheel
 * speed, lag, terrain) are drawn afresh for each bike, so different seeds give different bikes, riders and devices.
 */
export interface SimulationOptions {
  readonly cause: FaultCause;
  readonly seed: number;
  /** Size of the fault: mild, severe or a number from 0 (just noticeable) to 1 (unrideable). Default mild. */
  readonly severity?: 'mild' | 'severe' | number;
  /** Rides of one bike, in order. Default 1. */
  readonly rides?: number;
  /** Length of each ride, s. Default 3600. */
  readonly durationS?: number;
  /** Default: one ring, twelve cogs, cable. */
  readonly bike?: Bike;
  readonly terrain?: TerrainKind | 'mixed';
  readonly onset?: FaultOnset;
  /** Work on the bike between rides; acts on the mechanical parameters. `cure` does the right thing after half of the rides, `wrong` something that does not help. */
  readonly work?: readonly WorkDone[] | 'cure' | 'wrong';
  readonly speedSource?: 'wheel' | 'satellite';
  /** First-order lag of satellite speed, s. Default: drawn from 0.3 to 3. */
  readonly satelliteLagS?: number;
  /**
   * How much later speed and cadence are written than gear records, s. Default: drawn from 0 to 0.9. The sensors' own
   * windows and whole-second stamps add 1.5 to 2 s to that.
   */
  readonly recorderLagS?: number;
  readonly gearRecords?: 'both' | 'rear-only' | 'none';
  /** Gear records carry whole seconds (as FIT must) or the exact time (CSV and the direct log only). Default whole. */
  readonly gearTimes?: 'whole-seconds' | 'exact';
  readonly cadence?: boolean;
  readonly power?: boolean;
  /** Teeth as someone configured them, when wrong; same lengths as the bike's. `true` draws wrong ones. */
  readonly recordedTeeth?: boolean | { readonly chainrings: readonly number[]; readonly cassette: readonly number[] };
  /** Multiplies every sensor noise. Default 1. */
  readonly noiseScale?: number;
  /** Rollout set in the device over the true rollout (wheel sensor only). Default drawn within 1 %. */
  readonly rolloutScale?: number;
  /** Speed is rounded to this, m/s. Default 0.001. */
  readonly speedStepMps?: number;
  /** A record every second, or only when something changed (at most 7 s apart). Default every second. */
  readonly recording?: 'every-second' | 'uneven';
  /** The recorder pauses at long stops. Default true. */
  readonly autoPause?: boolean;
  /** Dropped sensors, slipping magnets, tunnels. Default true. */
  readonly sensorTroubles?: boolean;
  /** `smooth` eases off while shifting, `forceful` shifts under full load. Default: between the two. */
  readonly rider?: 'smooth' | 'ordinary' | 'forceful';
  /** A tensioner that lets the chain whip: it may come off at the ring on rough ground. Default false. */
  readonly looseChain?: boolean;
  /** Start of the first ride, ISO 8601. Rides follow every second day. */
  readonly start?: string;
  /** Files to make. Default FIT only; empty for the direct log alone. */
  readonly formats?: readonly RideFormat[];
}
