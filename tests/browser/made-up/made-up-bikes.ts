import { type Cause, causes } from '../../../src/diagnosis/causes.ts';
import { bikeSchema } from '../../../src/drivetrain/bike.ts';
import { wilsonInterval } from '../../../src/numeric/wilson-interval.ts';
import { type Report, reportSchema } from '../../../src/report/report-schema.ts';
import type { BikeDetail, RideColumns, RideDetail, StateWord } from '../../../web/api/answers.ts';
import { madeUpRide, type RideRecipe } from './made-up-ride.ts';

interface BikeRecipe {
  readonly id: string;
  readonly name: string;
  readonly actuation: 'cable' | 'electronic';
  readonly state: StateWord;
  readonly cause: Cause;
  readonly probability: number;
  readonly rides: readonly Omit<RideRecipe, 'file'>[];
  readonly adjustedAt?: string;
}

/** A bike and its rides as the API would answer. */
export interface MadeUpBike {
  readonly detail: BikeDetail;
  readonly rides: readonly { detail: RideDetail; columns: RideColumns }[];
}

type Tally = { shifts: number; late: number; missed: number; overshot: number; ghostShifts: number };

const rated = (tally: Tally) => {
  const bad = tally.late + tally.missed + tally.overshot;
  const { low, high } = wilsonInterval(bad, tally.shifts);
  return {
    ...tally,
    troubleRate: tally.shifts > 0 ? bad / tally.shifts : null,
    low: tally.shifts > 0 ? low : 0,
    high: tally.shifts > 0 ? high : 1,
  };
};

function tallyOf(rides: readonly RideDetail[], fits: (shift: { toTeeth: number; direction: string }) => boolean) {
  const judged = rides
    .flatMap((ride) => ride.report!.shifts)
    .filter((shift) => shift.outcome !== 'unjudged' && fits(shift));
  const count = (outcome: string): number => judged.filter((shift) => shift.outcome === outcome).length;
  const ghosts = rides.flatMap((ride) => ride.report!.ghostShifts);
  return rated({
    shifts: judged.length,
    late: count('late'),
    missed: count('missed'),
    overshot: count('overshot'),
    ghostShifts: ghosts.filter((ghost) =>
      fits({ toTeeth: ghost.toTeeth, direction: ghost.toTeeth > ghost.fromTeeth ? 'to-larger' : 'to-smaller' }),
    ).length,
  });
}

const cautions = [
  'Adjust with the bike on a stand, or on smooth ground away from traffic.',
  'Keep fingers out of a turning drivetrain.',
  'The maker’s manual and a qualified mechanic come first: these are likelihoods from logs, and nobody here has seen the bike.',
];

function diagnosisOf(recipe: BikeRecipe, cassette: readonly number[]): Report['diagnosis'] {
  const rest = causes.filter((cause) => cause !== recipe.cause);
  const weights = rest.map((_, i) => 0.62 ** i);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const error = recipe.cause === 'no-fault' ? -0.03 : -0.42;
  return {
    causes: [
      {
        cause: recipe.cause,
        probability: recipe.probability,
        evidence:
          recipe.cause === 'no-fault'
            ? ['Shifts in both directions come within a turn and a half of the crank.']
            : [
                '61 of 240 shifts to larger cogs were late or missed; to smaller cogs 4 of 221.',
                'The trouble lies over the whole cassette, not at one end.',
                '3 unasked moves, all to a smaller cog.',
              ],
      },
      ...rest.map((cause, i) => ({
        cause,
        probability: ((1 - recipe.probability) * weights[i]) / total,
        evidence: i < 2 ? ['Would also slow shifts to larger cogs, but mostly on the largest ones.'] : [],
      })),
    ],
    weighed: { rides: recipe.rides.length, judgedShifts: 461, weakShifts: 0, events: 3, pedallingHours: 4.2 },
    lateralOffsetMm: { mean: error, low: error - 0.2, high: error + 0.2 },
    lateralErrorMm: cassette.map((teeth, i) => ({
      teeth,
      mean: error + i * 0.01,
      low: error + i * 0.01 - 0.22 - Math.abs(i - 5) * 0.02,
      high: error + i * 0.01 + 0.22 + Math.abs(i - 5) * 0.02,
    })),
    clicks: { parameter: 'cable-tension', unit: 'clicks', mean: 2, low: 1, high: 3.4 },
    onset: { kind: 'sudden', at: recipe.rides[1]?.start ?? null, rideBeforeAt: null, probability: 0.8 },
    separates:
      recipe.cause === 'no-fault'
        ? null
        : {
            between: [recipe.cause, rest[0]],
            bySkips: false,
            sentence: 'Twenty shifts to smaller cogs under light load would tell the two apart.',
          },
    undecided: null,
    checkRide: {
      blocks: [],
      sentences: ['Ten shifts 21 to 24 and back, soft.', 'Ten shifts 14 to 12 and back, soft.'],
      expectedBits: 0.6,
      ordinaryBits: 0.2,
    },
    now: {
      fault: recipe.cause,
      setting: 'same',
      byLastAdjustment: false,
      pastTheMark: 0,
      since: {
        at: null,
        toLarger: { shifts: 240, trouble: recipe.cause === 'no-fault' ? 2 : 61 },
        toSmaller: { shifts: 221, trouble: 4 },
        ghostShifts: 3,
        skips: 0,
        chainDrops: { pastLargest: 0, pastSmallest: 0, elsewhere: 0 },
      },
    },
    stillThere: 1,
    cured: false,
    shiftsWellSince: null,
    riderPart: {
      probability: 0.02,
      troubleRateLowTorque: null,
      troubleRateHighTorque: null,
      goneWithSoftLegs: false,
      sentence: 'The rides tell nothing about shifting under load.',
    },
    notes: [],
    suggestion:
      recipe.cause === 'no-fault'
        ? {
            namesCause: false,
            inspectFirst: false,
            parameter: 'none',
            action: 'Leave it as it is.',
            start: 'Ride on; nothing needs turning.',
            sense: null,
            verify: 'Look again after the next few rides.',
            cautions,
            cautionKinds: ['by-hand', 'by-hand', 'mind'],
          }
        : {
            namesCause: true,
            inspectFirst: false,
            parameter: 'cable-tension',
            action: 'Turn the barrel adjuster anticlockwise for more tension.',
            start: 'Begin with one click.',
            sense: 1 as const,
            verify: 'Ride twenty shifts to larger cogs, then compare with the rides before.',
            cautions,
            cautionKinds: ['by-hand', 'by-hand', 'mind'],
          },
  };
}

/** Builds one bike with its rides and a report that fits the report's schema. */
export function madeUpBike(recipe: BikeRecipe): MadeUpBike {
  const bike = bikeSchema.parse({
    name: recipe.name,
    chainrings: [32],
    cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
    rolloutMm: 2290,
    actuation: recipe.actuation,
  });
  const rides = recipe.rides.map((ride, i) => {
    const id = `${recipe.id}r${i}`;
    const { report, columns } = madeUpRide({ ...ride, file: `${recipe.id}-ride-${i + 1}.fit` }, bike);
    const { file, start, durationS, counts, evidence, warnings } = report;
    const detail = {
      id,
      bikeId: recipe.id,
      sha256: '',
      file,
      bytes: 381_000,
      start,
      durationS,
      counts,
      evidence,
      warnings,
      status: 'done',
      positions: 'none',
      report,
    } as RideDetail;
    return { detail, columns };
  });
  const details = rides.map((ride) => ride.detail);
  const all = tallyOf(details, () => true);
  const cogsOf = (of: readonly RideDetail[]) =>
    (['to-larger', 'to-smaller'] as const).flatMap((direction) =>
      bike.cassette.map((teeth) => ({
        teeth,
        direction,
        ...tallyOf(of, (shift) => shift.toTeeth === teeth && shift.direction === direction),
      })),
    );
  const enough = recipe.state !== 'too little data';
  const split = recipe.adjustedAt;
  const [before, after] = split
    ? [details.filter((ride) => ride.start! < split), details.filter((ride) => ride.start! >= split)]
    : [[], []];
  const report = reportSchema.parse({
    version: 1,
    bike,
    bikeSource: 'given',
    bikeNotes: [],
    bikeCertainty: null,
    bikeUnseenCogs: [],
    rides: details.map((ride) => ({
      ...ride.report!,
      shifts: [],
      ghostShifts: [],
      chainDrops: [],
      skips: [],
      gears: [],
      leftOut: null,
      notTallied: null,
    })),
    failed: [],
    cogs: cogsOf(details),
    diagnosis: diagnosisOf(recipe, bike.cassette),
    adjustments: split
      ? [
          {
            at: split,
            parameter: 'cable-tension',
            amount: 1,
            unit: 'clicks',
            before: tallyOf(before, () => true),
            after: tallyOf(after, () => true),
            cogs: [],
            skipping: null,
            probabilityBetter: 0.97,
            shiftsStillNeeded: null,
            group: 0,
            sharedPeriod: false,
            leftOut: { before: 0, after: 0 },
          },
        ]
      : [],
  });
  const log = split
    ? [
        {
          id: 'a1',
          version: 'a1-1',
          at: split,
          parameter: 'cable-tension' as const,
          amount: 1,
          unit: 'clicks' as const,
          note: 'At the hut, before breakfast.',
        },
      ]
    : [];
  return {
    rides,
    detail: {
      id: recipe.id,
      bike,
      version: 'b-1',
      bikeSource: 'given',
      sample: false,
      workshopMark: null,
      rides: rides.length,
      lastRideAt: details[details.length - 1]?.start ?? null,
      adjustments: log.length,
      state: {
        word: recipe.state,
        underWay: false,
        topCause: enough ? recipe.cause : null,
        probability: enough ? recipe.probability : null,
        faultProbability: enough ? (recipe.cause === 'no-fault' ? 1 - recipe.probability : 0.97) : null,
        since: 'first-ride',
        sinceAt: null,
        sinceAdjustment: false,
        judgedShifts: all.shifts,
        judgedRides: rides.length,
        reasons: [],
        dangers: [],
        cautionsSaid: [],
        troubleRate: all.troubleRate,
        low: all.low,
        high: all.high,
        skips: 0,
        chainsLost: 0,
        worstCog: null,
      },
      trend: details.map((ride) => {
        const tally = tallyOf([ride], () => true);
        return {
          rideId: ride.id,
          at: ride.start!,
          troubleRate: tally.troubleRate,
          low: tally.low,
          high: tally.high,
          shifts: tally.shifts,
        };
      }),
      work: recipe.state === 'service' ? 'Turn the barrel adjuster one click anticlockwise.' : null,
      workPart: recipe.state === 'service' ? 'cable-tension' : null,
      adjustmentMarks: log.map(({ at, parameter }) => ({ at, parameter })),
      pending: 0,
      staleReason: null,
      report: rides.length > 0 ? report : null,
      adjustmentsLog: log,
      loadSplitNm: 24,
      perLoad: [
        { load: 'soft', cogs: cogsOf(details.slice(0, 1)) },
        { load: 'firm', cogs: cogsOf(details.slice(1)) },
      ],
      perPeriod: split
        ? [
            { from: null, to: split, cogs: cogsOf(before) },
            { from: split, to: null, cogs: cogsOf(after) },
          ]
        : [],
      engineVersion: '0.1.0',
    },
  };
}

const rideDays = (
  count: number,
  seed: number,
  trouble: (i: number) => [number, number],
  durationS = 6200,
  ghosts = 1,
) =>
  Array.from({ length: count }, (_, i) => ({
    seed: seed + i / 100,
    start: new Date(Date.UTC(2026, 3, 3 + i * 6, 7, 30)).toISOString(),
    durationS,
    troubleToLarger: trouble(i)[0],
    troubleToSmaller: trouble(i)[1],
    ghosts,
  }));

/** A small invented fleet: one bike of each state, and one with a ten-hour ride. */
export function madeUpFleet(): MadeUpBike[] {
  return [
    madeUpBike({
      id: 'b1',
      name: 'Larch hut hardtail',
      actuation: 'cable',
      state: 'service',
      cause: 'cable-tension-low',
      probability: 0.86,
      adjustedAt: '2026-04-20T18:00:00.000Z',
      rides: rideDays(6, 0.11, (i) => (i < 3 ? [0.38, 0.03] : [0.16, 0.03]), 6200, 3),
    }),
    madeUpBike({
      id: 'b2',
      name: 'Saddle pass tourer',
      actuation: 'electronic',
      state: 'watch',
      cause: 'hanger-bent',
      probability: 0.46,
      rides: rideDays(4, 0.31, (i) => (i < 2 ? [0.02, 0.02] : [0.09, 0.1])),
    }),
    madeUpBike({
      id: 'b3',
      name: 'Lower hut mule',
      actuation: 'cable',
      state: 'too little data',
      cause: 'no-fault',
      probability: 0.5,
      rides: rideDays(1, 0.51, () => [0.0, 0.1], 400, 0),
    }),
    madeUpBike({
      id: 'b4',
      name: 'Guide’s own',
      actuation: 'cable',
      state: 'fine',
      cause: 'no-fault',
      probability: 0.95,
      rides: rideDays(5, 0.71, () => [0.01, 0.01], 36_000, 0),
    }),
  ];
}
