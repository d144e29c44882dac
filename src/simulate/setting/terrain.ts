import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { TerrainKind } from './simulation-options.ts';

/** Something on the way that makes a rider do more than pedal. */
export interface Place {
  readonly atM: number;
  readonly kind: 'junction' | 'break' | 'push' | 'tunnel';
  /** Junction: whether it forces a stop. Push and tunnel: length, m. Break: seconds. */
  readonly size: number;
}

/** The way ahead, as columns over segments with one shared index, and the places on it by distance. */
export interface Terrain {
  readonly startM: Float64Array;
  /** Rise over run. */
  readonly grade: Float64Array;
  /** 0 smooth asphalt to 1 rock garden. */
  readonly roughness: Float64Array;
  /** Speed that bends and sight allow, m/s. */
  readonly speedLimitMps: Float64Array;
  readonly places: readonly Place[];
}

interface TerrainCharacter {
  readonly segmentM: readonly [number, number];
  readonly gradeSpread: number;
  readonly roughness: readonly [number, number];
  readonly speedLimitMps: readonly [number, number];
  readonly junctionEveryM: number;
  readonly breakEveryM: number;
  readonly pushEveryM: number;
  readonly tunnelEveryM: number;
}

const characters: Record<TerrainKind, TerrainCharacter> = {
  flat: {
    segmentM: [200, 1000],
    gradeSpread: 0.008,
    roughness: [0, 0.08],
    speedLimitMps: [9, 15],
    junctionEveryM: 2600,
    breakEveryM: 25_000,
    pushEveryM: 200_000,
    tunnelEveryM: 30_000,
  },
  rolling: {
    segmentM: [120, 600],
    gradeSpread: 0.032,
    roughness: [0, 0.15],
    speedLimitMps: [9, 16],
    junctionEveryM: 3500,
    breakEveryM: 25_000,
    pushEveryM: 150_000,
    tunnelEveryM: 40_000,
  },
  hilly: {
    segmentM: [300, 2200],
    gradeSpread: 0.062,
    roughness: [0, 0.15],
    speedLimitMps: [8, 16],
    junctionEveryM: 5000,
    breakEveryM: 15_000,
    pushEveryM: 80_000,
    tunnelEveryM: 20_000,
  },
  'off-road': {
    segmentM: [40, 320],
    gradeSpread: 0.08,
    roughness: [0.15, 1],
    speedLimitMps: [5, 11],
    junctionEveryM: 3000,
    breakEveryM: 9000,
    pushEveryM: 12_000,
    tunnelEveryM: 100_000,
  },
  town: {
    segmentM: [60, 250],
    gradeSpread: 0.012,
    roughness: [0, 0.2],
    speedLimitMps: [6, 9],
    junctionEveryM: 280,
    breakEveryM: 12_000,
    pushEveryM: 5000,
    tunnelEveryM: 12_000,
  },
};

/** Draws a way of at least `lengthM` metres. `mixed` changes its character every few kilometres. */
export function drawTerrain(kind: TerrainKind | 'mixed', lengthM: number, random: SeededRandom): Terrain {
  const startM: number[] = [];
  const grade: number[] = [];
  const roughness: number[] = [];
  const speedLimitMps: number[] = [];
  const places: Place[] = [];
  let at = 0;
  let climbed = 0;
  let characterUntilM = 0;
  let character = characters[kind === 'mixed' ? 'rolling' : kind];
  while (at < lengthM) {
    if (kind === 'mixed' && at >= characterUntilM) {
      character = characters[random.pick(['flat', 'rolling', 'hilly', 'off-road', 'off-road', 'town'] as const)];
      characterUntilM = at + random.between(1000, 5000);
    }
    const segment = random.between(...character.segmentM);
    // What goes up comes down again: the drawn grade leans against the height gained so far.
    const lean = -0.00012 * climbed * character.gradeSpread * 10;
    const drawn = character.gradeSpread * random.normal() + Math.max(-0.02, Math.min(0.02, lean));
    const steepest = 3 * character.gradeSpread;
    const slope = Math.max(-steepest, Math.min(0.9 * steepest, drawn));
    startM.push(at);
    grade.push(slope);
    roughness.push(random.between(...character.roughness));
    speedLimitMps.push(random.between(...character.speedLimitMps) * (slope < -0.05 ? 0.9 : 1));
    places.push(...placesWithin({ character, fromM: at, lengthM: segment, slope }, random));
    climbed += slope * segment;
    at += segment;
  }
  return {
    startM: Float64Array.from(startM),
    grade: Float64Array.from(grade),
    roughness: Float64Array.from(roughness),
    speedLimitMps: Float64Array.from(speedLimitMps),
    places: places.sort((a, b) => a.atM - b.atM),
  };
}

/** One segment of the way: where it begins, how long and how steep it is. */
interface Segment {
  readonly character: TerrainCharacter;
  readonly fromM: number;
  readonly lengthM: number;
  readonly slope: number;
}

function placesWithin({ character, fromM, lengthM, slope }: Segment, random: SeededRandom): Place[] {
  const places: Place[] = [];
  const draw = (kind: Place['kind'], everyM: number, size: () => number): void => {
    if (random.chance(1 - Math.exp(-lengthM / everyM)))
      places.push({ atM: fromM + random.between(0, lengthM), kind, size: size() });
  };
  draw('junction', character.junctionEveryM, () => (random.chance(0.55) ? 1 : 0));
  draw('break', character.breakEveryM, () => 40 + random.exponential(150));
  draw('tunnel', character.tunnelEveryM, () => random.between(60, 500));
  draw('push', slope > 0.1 ? character.pushEveryM / 5 : character.pushEveryM, () => random.between(12, 70));
  return places;
}
