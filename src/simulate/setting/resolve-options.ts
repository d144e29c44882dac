import { type Bike, bikeSchema } from '../../drivetrain/bike.ts';
import { type SeededRandom, seededRandom } from '../../numeric/seeded-random.ts';
import { checkCauseAndSeed, checkCauseFitsBike, checkSizes, checkWords } from './check-options.ts';
import { type RecordedTeeth, recordedTeeth } from './recorded-teeth.ts';
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
  readonly recordedTeeth: RecordedTeeth;
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

/** The device on a bike and the land it is ridden in, for what the options do not say. */
function drawDeviceAndLand(random: SeededRandom) {
  return {
    speedSource: random.pick(['wheel', 'satellite'] as const),
    satelliteLagS: random.between(0.3, 3),
    recorderLagS: random.between(0, 0.9),
    rolloutScale: 1 + 0.004 * random.normal(),
    terrain: random.pick(['rolling', 'hilly', 'off-road', 'off-road', 'mixed'] as const),
  };
}

/** @throws SimulationOptionError for a cause, number or combination that cannot be simulated. */
export function resolveOptions(options: SimulationOptions): ResolvedOptions {
  checkCauseAndSeed(options);
  const bike = options.bike ? bikeSchema.parse(options.bike) : defaultBike;
  checkCauseFitsBike(options.cause, bike);
  const severity = typeof options.severity === 'number' ? options.severity : severities[options.severity ?? 'mild'];
  const durationS = options.durationS ?? 3600;
  const rides = options.rides ?? 1;
  checkSizes({ severity, durationS, rides });
  checkWords(options);
  const random = seededRandom(options.seed, 'device');
  const drawn = drawDeviceAndLand(random);
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
    recordedTeeth: recordedTeeth(options.recordedTeeth, bike, random),
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
