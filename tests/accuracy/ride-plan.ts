import type { Bike } from '../../src/drivetrain/bike.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { type FaultCause, faultCauses } from '../../src/simulate/setting/fault-causes.ts';
import type { SimulationOptions } from '../../src/simulate/setting/simulation-options.ts';

/** One ride to simulate and to score. */
export interface PlannedRide {
  readonly options: SimulationOptions & { readonly bike: Bike };
  /** Score the same ride a second time with its gear records taken out. */
  readonly alsoWithoutRecords: boolean;
}

const RIDE_S = 3600;

const singleRing: readonly Bike[] = [
  {
    name: 'One ring, twelve cogs',
    chainrings: [32],
    cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
    rolloutMm: 2290,
    actuation: 'cable',
  },
  {
    name: 'One ring, eleven cogs',
    chainrings: [40],
    cassette: [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 42],
    tyre: '40-622',
    actuation: 'cable',
  },
];
const doubleRing: readonly Bike[] = [
  {
    name: 'Two rings, eleven cogs',
    chainrings: [34, 50],
    cassette: [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34],
    rolloutMm: 2105,
    actuation: 'cable',
  },
  {
    name: 'Two rings, ten cogs',
    chainrings: [30, 46],
    cassette: [11, 13, 15, 17, 19, 21, 24, 28, 32, 36],
    tyre: '35-622',
    actuation: 'cable',
  },
];

/** Causes that make the chain move unasked, come off or skip, where they are severe. */
const eventfulCauses: readonly FaultCause[] = [
  'cable-tension-low',
  'hanger-bent',
  'low-limit-loose',
  'cable-tension-high',
  'high-limit-loose',
  'worn-drivetrain',
];

/** Every cause and none, as mild and as severe as they come. */
export const ridePlan = (hours: number, seed: number, noiseScale: number): PlannedRide[] =>
  plannedRides('accuracy plan', faultCauses, [0.5, 1], hours, seed, seed * 10_000, noiseScale);

/** Severe faults of the six causes that make for ghost shifts, drops and skips: without these there are too few to count. */
export const eventfulPlan = (hours: number, seed: number, noiseScale: number): PlannedRide[] =>
  plannedRides('eventful plan', eventfulCauses, [0.85, 1], hours, seed, seed * 10_000 + 3000, noiseScale);

/**
 * Rides of one hour: as many in a row as there are causes hold each; the next row the other speed source; the next two rows
 * two rings instead of one. Four rows hold every combination. Severity, terrain, rider and recorder are drawn from the seed.
 *
 * @param noiseScale multiplies every sensor noise of the simulator; the same seed gives the same rides but for that
 */
function plannedRides(
  label: string,
  causes: readonly FaultCause[],
  severity: readonly [number, number],
  hours: number,
  seed: number,
  firstSeed: number,
  noiseScale: number,
): PlannedRide[] {
  return Array.from({ length: hours }, (_, i) => {
    const random = seededRandom(seed, label, i);
    const round = Math.floor(i / causes.length);
    const two = round % 4 >= 2;
    return {
      alsoWithoutRecords: true,
      options: {
        cause: causes[i % causes.length],
        seed: firstSeed + i,
        severity: random.between(...severity),
        durationS: RIDE_S,
        bike: random.pick(two ? doubleRing : singleRing),
        speedSource: round % 2 === 0 ? 'wheel' : 'satellite',
        gearRecords: two && random.chance(0.4) ? 'rear-only' : 'both',
        gearTimes: random.chance(0.25) ? 'exact' : 'whole-seconds',
        power: random.chance(0.6),
        recordedTeeth: random.chance(0.15),
        rider: random.pick(['smooth', 'ordinary', 'ordinary', 'forceful'] as const),
        looseChain: random.chance(0.15),
        noiseScale,
        formats: [],
      },
    };
  });
}

/** Healthy rides of one hour that are full of stops: mostly towns, then rough ground; half of them without gear records. */
export function healthyPlan(hours: number, seed: number): PlannedRide[] {
  return Array.from({ length: hours }, (_, i) => {
    const random = seededRandom(seed, 'healthy plan', i);
    return {
      alsoWithoutRecords: false,
      options: {
        cause: 'no-fault',
        seed: seed * 10_000 + 5000 + i,
        durationS: RIDE_S,
        bike: random.pick([...singleRing, ...doubleRing]),
        terrain: random.pick(['town', 'town', 'off-road', 'mixed'] as const),
        speedSource: i % 2 === 0 ? 'wheel' : 'satellite',
        gearRecords: i % 4 >= 2 ? 'none' : 'both',
        power: random.chance(0.6),
        formats: [],
      },
    };
  });
}
