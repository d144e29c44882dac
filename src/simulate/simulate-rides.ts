import { seededRandom } from '../numeric/seeded-random.ts';
import { DAY_MS } from '../numeric/time-units.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { csvBytes } from './files/csv-bytes.ts';
import { fitBytes } from './files/fit-bytes.ts';
import { tcxBytes } from './files/tcx-bytes.ts';
import { BikeStory } from './mechanics/bike-story.ts';
import { runRide } from './mechanics/run-ride.ts';
import { drawRider } from './rider/rider-nature.ts';
import { recordRide } from './sensors/record-ride.ts';
import { type ResolvedOptions, resolveOptions } from './setting/resolve-options.ts';
import type { RideFormat, SimulationOptions } from './setting/simulation-options.ts';
import { drawTerrain } from './setting/terrain.ts';
import { tellTruth } from './truth/tell-truth.ts';
import type { RideTruth } from './truth/truth-schema.ts';

/** One simulated ride: the log as a device wrote it, the same in file formats, and what was really so. */
export interface SimulatedRide {
  /** File name without extension. */
  readonly name: string;
  readonly log: RideLog;
  readonly bytes: Readonly<Partial<Record<RideFormat, Uint8Array>>>;
  readonly truth: RideTruth;
}

const encoders: Record<RideFormat, (log: RideLog) => Uint8Array> = { fit: fitBytes, csv: csvBytes, tcx: tcxBytes };

/** Start of ride `ride`, Unix ms: every second day at the same hour. */
export function rideStartMs(options: ResolvedOptions, ride: number): number {
  return Date.parse(options.start) + 2 * DAY_MS * ride;
}

/**
 * Simulates the rides of one bike. The same options give the same bytes.
 *
 * @throws SimulationOptionError where the options cannot be simulated.
 * @example simulateRides({ cause: 'cable-tension-low', seed: 1, severity: 'severe' })[0].truth.shifts
 */
export function simulateRides(options: SimulationOptions): SimulatedRide[] {
  return simulateResolved(resolveOptions(options));
}

/** `simulateRides` for options that were resolved before. */
export function simulateResolved(options: ResolvedOptions): SimulatedRide[] {
  const story = new BikeStory(options);
  return Array.from({ length: options.rides }, (_, ride) => simulateOne(options, story, ride));
}

function simulateOne(options: ResolvedOptions, story: BikeStory, ride: number): SimulatedRide {
  const { condition } = story.conditionAt(ride, 0);
  let level = story.levelAt(ride, 0);
  const track = runRide({
    bike: options.bike,
    rolloutMm: options.rolloutMm,
    durationS: options.durationS,
    terrain: drawTerrain(options.terrain, options.durationS * 14, seededRandom(options.seed, 'terrain', ride)),
    nature: drawRider(options.rider, seededRandom(options.seed, 'nature')),
    looseChain: options.looseChain,
    seed: options.seed,
    ride,
    condition,
    conditionAt: (timeS) => {
      const now = story.levelAt(ride, timeS);
      if (Math.abs(now - level) < 0.002) return;
      level = now;
      const { wear, cogErrorMm, ...rest } = story.conditionAt(ride, timeS).condition;
      Object.assign(condition, rest);
      condition.wear.set(wear);
      condition.cogErrorMm.set(cogErrorMm);
    },
  });
  const recorded = recordRide(track, options, ride, rideStartMs(options, ride));
  const { fault } = story.conditionAt(ride, options.durationS);
  const truth = tellTruth(track, recorded, options, ride, { condition, fault, faultFromS: story.onsetWithin(ride) });
  const bytes = Object.fromEntries(options.formats.map((format) => [format, encoders[format](recorded.log)]));
  return { name: recorded.log.file, log: recorded.log, bytes, truth };
}
