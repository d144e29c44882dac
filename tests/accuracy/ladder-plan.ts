import type { Bike } from '../../src/drivetrain/bike.ts';
import type { SimulationOptions } from '../../src/simulate/setting/simulation-options.ts';

/** One healthy ride whose drivetrain is to be guessed without its gear records. */
export type LadderRide = SimulationOptions & { readonly bike: Bike };

const bike = (name: string, chainrings: number[], cassette: number[], rolloutMm: number): Bike => ({
  name,
  chainrings,
  cassette,
  rolloutMm,
  actuation: 'cable',
});

/** Bikes from wide to close cassettes, with one ring and with two. */
const bikes: readonly Bike[] = [
  bike('1 ring, 10-51', [32], [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51], 2290),
  bike('1 ring, 11-42', [40], [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 42], 2180),
  bike('1 ring, 11-34', [32], [11, 13, 15, 17, 19, 21, 23, 25, 27, 30, 34], 2250),
  bike('1 ring, 10-44', [40], [10, 11, 13, 15, 17, 19, 21, 24, 28, 32, 38, 44], 2200),
  bike('1 ring, 11-46', [34], [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 46], 2280),
  bike('2 rings, 11-34', [34, 50], [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34], 2105),
  bike('2 rings, 11-36', [30, 46], [11, 13, 15, 17, 19, 21, 24, 28, 32, 36], 2180),
  bike('2 rings, 11-30', [36, 52], [11, 12, 13, 14, 15, 16, 17, 19, 21, 24, 27, 30], 2100),
  bike('2 rings, 11-28', [34, 50], [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28], 2110),
  bike('2 small rings, 11-36', [26, 36], [11, 13, 15, 17, 19, 21, 24, 28, 32, 36], 2280),
];

const LENGTHS_S = [1800, 3600, 7200];

/** `rides` rides of each bike with a wheel sensor and as many with satellite speed, of half an hour, one hour and two in turn. */
export const ladderPlan = (rides: number, seed: number): LadderRide[] =>
  bikes.flatMap((one, b) =>
    (['wheel', 'satellite'] as const).flatMap((speedSource, s) =>
      Array.from({ length: rides }, (_, ride) => ({
        cause: 'no-fault' as const,
        seed: seed * 10_000 + 7000 + 100 * b + 50 * s + ride,
        durationS: LENGTHS_S[ride % LENGTHS_S.length],
        bike: one,
        speedSource,
        power: ride % 2 === 0,
        formats: [],
      })),
    ),
  );
