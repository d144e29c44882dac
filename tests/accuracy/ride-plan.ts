import type { Bike } from '../../src/drivetrain/bike.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { faultCauses } from '../../src/simulate/setting/fault-causes.ts';
import type { SimulationOptions } from '../../src/simulate/setting/simulation-options.ts';

/** One ride to simulate and to score. */
export interface PlannedRide {
  readonly options: SimulationOptions & { readonly bike: Bike };
  /** Score the same ride a second time with its gear records taken out. */
  readonly alsoWithoutRecords: boolean;
}

export const rideS = 3600;

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

/**
 * Rides of one hour: twelve in a row hold every cause and none; the next twelve the other speed source; the next two dozen
 * two rings instead of one. 48 hours hold every combination. Severity, terrain, rider and recorder are drawn from the seed.
 *
 * @param noiseScale multiplies every sensor noise of the simulator; the same seed gives the same rides but for that
 */
export function ridePlan(hours: number, seed: number, noiseScale: number): PlannedRide[] {
  return Array.from({ length: hours }, (_, i) => {
    const random = seededRandom(seed, 'accuracy plan', i);
    const round = Math.floor(i / faultCauses.length);
    const two = round % 4 >= 2;
    return {
      alsoWithoutRecords: true,
      options: {
        cause: faultCauses[i % faultCauses.length],
        seed: seed * 10_000 + i,
        severity: random.between(0.5, 1),
        durationS: rideS,
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
        durationS: rideS,
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
