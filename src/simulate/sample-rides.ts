import type { Bike } from '../drivetrain/bike.ts';
import type { SimulationOptions } from './setting/simulation-options.ts';
import { type SimulationFile, simulationFiles } from './simulation-files.ts';

/** An invented bike of an invented firm that guides guests on bicycles from hut to hut. */
interface SampleBike {
  readonly folder: string;
  readonly options: SimulationOptions;
}

/** The firm rides one kind of bike and names each after a mountain animal. */
const hutBike = (name: string): Bike => ({
  name,
  chainrings: [32],
  cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
  rolloutMm: 2290,
  actuation: 'cable',
  cogPitchMm: 3.65,
});

/** The sample bikes: what is wrong with each, and the seed that makes its rides. */
const sampleBikes: readonly SampleBike[] = [
  {
    folder: 'larch',
    options: {
      cause: 'no-fault',
      seed: 11,
      rides: 2,
      durationS: 6000,
      terrain: 'hilly',
      speedSource: 'wheel',
      bike: hutBike('Larch, hut guide bike'),
      start: '2026-05-02T07:30:00Z',
    },
  },
  {
    folder: 'juniper',
    options: {
      cause: 'cable-tension-low',
      severity: 0.7,
      seed: 14,
      rides: 2,
      durationS: 6600,
      terrain: 'off-road',
      speedSource: 'wheel',
      work: [{ afterRide: 1, parameter: 'cable-tension', amount: 3, note: 'one click at a time, on the stand' }],
      bike: hutBike('Juniper, hut guide bike'),
      start: '2026-05-03T08:00:00Z',
    },
  },
  {
    folder: 'chough',
    options: {
      cause: 'hanger-bent',
      severity: 0.85,
      seed: 22,
      rides: 3,
      durationS: 6000,
      terrain: 'off-road',
      speedSource: 'satellite',
      satelliteLagS: 1,
      onset: { atRide: 1 },
      work: [
        {
          afterRide: 2,
          parameter: 'cable-tension',
          amount: 1,
          note: 'fell two days ago; this made the large cogs better and the small ones worse',
        },
      ],
      bike: hutBike('Chough, hut guide bike'),
      start: '2026-05-02T08:15:00Z',
    },
  },
];

/** Every file of the sample bikes but their README: a folder for each bike with its rides, bike file and adjustments. */
export function sampleRideFiles(): SimulationFile[] {
  return sampleBikes.flatMap(({ folder, options }) =>
    simulationFiles(options)
      .filter(({ path }) => !path.endsWith('.truth.json'))
      .map(({ path, bytes }) => ({ path: `${folder}/${path}`, bytes })),
  );
}
