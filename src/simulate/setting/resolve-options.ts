import { type Bike, bikeSchema } from '../../drivetrain/bike.ts';
import { seededRandom } from '../../numeric/seeded-random.ts';
import { faultCauses } from './fault-causes.ts';
import { SimulationOptionError } from './option-error.ts';
import type { FaultOnset, RideFormat, SimulationOptions, TerrainKind } from './simulation-options.ts';
import type { WorkDone } from './work-done.ts';

/** Options with every default filled in and every draw made. */
export interface ResolvedOptions
  extends Required<Omit<SimulationOptions, 'recordedTeeth' | 'severity' | 'terrain' | 'work'>> {
  readonly severity: number;
  readonly rolloutMm: number;
  readonly terrain: TerrainKind | 'mixed';
  readonly onset: FaultOnset;
  readonly work: readonly WorkDone[] | 'cure' | 'wrong';
  readonly recordedTeeth: { readonly chainrings: readonly number[]; readonly cassette: readonly number[] };
  readonly formats: readonly RideFormat[];
}

/** The bike of a simulation that names none. */
export const defaultBike: Bike = {
  name: 'Simulated trail bike',
  chainrings: [32],
  cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
  rolloutMm: 2290,
  actuation: 'cable',
  cogPitchMm: 3.65,
};

const severities = { mild: 0.3, severe: 0.8 } as const;

/** A tyre under a rider is a little smaller than its name: about a hundredth off the geometric circumference. */
function rolloutOf(bike: Bike): number {
  if (bike.rolloutMm) return bike.rolloutMm;
  const [width, seat] = (bike.tyre ?? '40-622').split('-').map(Number);
  return 0.99 * Math.PI * (seat + 2 * width);
}

/** Teeth as a careless owner might enter them: a few cogs one or two teeth off, still rising. */
function misconfigured(teeth: readonly number[], random: ReturnType<typeof seededRandom>): number[] {
  const wrong = teeth.map((t) => (random.chance(0.4) ? t + random.pick([-2, -1, 1, 2]) : t));
  for (let i = 1; i < wrong.length; i++) wrong[i] = Math.max(wrong[i], wrong[i - 1] + 1);
  return wrong;
}

function oneOf(option: string, found: unknown, allowed: readonly string[]): void {
  if (found !== undefined && !allowed.includes(found as string))
    throw new SimulationOptionError(option, found, allowed.join(', '));
}

/** @throws SimulationOptionError for a cause, number or combination that cannot be simulated. */
export function resolveOptions(options: SimulationOptions): ResolvedOptions {
  if (!faultCauses.includes(options.cause))
    throw new SimulationOptionError('cause', options.cause, faultCauses.join(', '));
  if (!Number.isSafeInteger(options.seed) || options.seed < 0)
    throw new SimulationOptionError('seed', options.seed, 'a whole number from 0');
  const bike = options.bike ? bikeSchema.parse(options.bike) : defaultBike;
  if (options.cause === 'cable-friction' && bike.actuation === 'electronic')
    throw new SimulationOptionError('cause', options.cause, 'a bike with a cable; this one is electronic');
  const severity = typeof options.severity === 'number' ? options.severity : severities[options.severity ?? 'mild'];
  if (!(severity >= 0 && severity <= 1)) throw new SimulationOptionError('severity', severity, '0 to 1');
  const durationS = options.durationS ?? 3600;
  if (!(durationS >= 60 && durationS <= 86_400)) throw new SimulationOptionError('durationS', durationS, '60 to 86400');
  const rides = options.rides ?? 1;
  if (!Number.isInteger(rides) || rides < 1 || rides > 100) throw new SimulationOptionError('rides', rides, '1 to 100');
  oneOf('terrain', options.terrain, ['flat', 'rolling', 'hilly', 'off-road', 'town', 'mixed']);
  oneOf('speedSource', options.speedSource, ['wheel', 'satellite']);
  oneOf('gearRecords', options.gearRecords, ['both', 'rear-only', 'none']);
  oneOf('gearTimes', options.gearTimes, ['whole-seconds', 'exact']);
  oneOf('recording', options.recording, ['every-second', 'uneven']);
  oneOf('rider', options.rider, ['smooth', 'ordinary', 'forceful']);
  for (const format of options.formats ?? []) oneOf('formats', format, ['fit', 'csv', 'tcx']);
  if (options.start !== undefined && Number.isNaN(Date.parse(options.start)))
    throw new SimulationOptionError('start', options.start, 'an ISO 8601 time');
  const random = seededRandom(options.seed, 'device');
  const drawn = {
    speedSource: random.pick(['wheel', 'satellite'] as const),
    satelliteLagS: random.between(0.3, 3),
    recorderLagS: random.between(0, 0.9),
    rolloutScale: 1 + 0.004 * random.normal(),
    terrain: random.pick(['rolling', 'hilly', 'off-road', 'off-road', 'mixed'] as const),
  };
  const wrongTeeth = {
    chainrings: misconfigured(bike.chainrings, random),
    cassette: misconfigured(bike.cassette, random),
  };
  const recordedTeeth =
    typeof options.recordedTeeth === 'object' ? options.recordedTeeth : options.recordedTeeth ? wrongTeeth : bike;
  if (
    recordedTeeth.cassette.length !== bike.cassette.length ||
    recordedTeeth.chainrings.length !== bike.chainrings.length
  )
    throw new SimulationOptionError('recordedTeeth', recordedTeeth, 'as many cogs and rings as the bike has');
  return {
    cause: options.cause,
    seed: options.seed,
    severity,
    rides,
    durationS,
    bike,
    rolloutMm: rolloutOf(bike),
    terrain: options.terrain ?? drawn.terrain,
    onset: options.onset ?? 'from-start',
    work: options.work ?? [],
    speedSource: options.speedSource ?? drawn.speedSource,
    satelliteLagS: options.satelliteLagS ?? drawn.satelliteLagS,
    recorderLagS: options.recorderLagS ?? drawn.recorderLagS,
    gearRecords: options.gearRecords ?? 'both',
    gearTimes: options.gearTimes ?? 'whole-seconds',
    cadence: options.cadence ?? true,
    power: options.power ?? true,
    recordedTeeth,
    noiseScale: options.noiseScale ?? 1,
    rolloutScale: options.rolloutScale ?? drawn.rolloutScale,
    speedStepMps: options.speedStepMps ?? 0.001,
    recording: options.recording ?? 'every-second',
    autoPause: options.autoPause ?? true,
    sensorTroubles: options.sensorTroubles ?? true,
    rider: options.rider ?? 'ordinary',
    looseChain: options.looseChain ?? false,
    start: options.start ?? '2026-04-11T08:00:00Z',
    formats: options.formats ?? ['fit'],
  };
}
