import { compareAdjustments } from '../../src/adjustments/compare-adjustments.ts';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import { type Cause, causes } from '../../src/diagnosis/causes.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { buildReport } from '../../src/report/build-report.ts';
import { skipsByCog } from '../../src/report/cog-skips.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { type RideAnalysis, rideReport, type TracedGears } from '../../src/report/ride-report.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import type { WeighedSign } from '../../src/shifts/drops/weigh-candidate.ts';
import type { Outcome, RideEvents, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

/** Built shapes for tests of the report: an invented bike, two rides with known events, a verdict, an adjustment. */
export const sampleBike: Bike = {
  name: 'Hut bike 3',
  chainrings: [32],
  cassette: [11, 13, 15, 18, 21, 24, 28, 32, 37],
  rolloutMm: 2290,
  actuation: 'cable',
};

export const shiftAt = (timeS: number, fromCog: number, toCog: number, outcome: Outcome = 'clean'): ShiftEvent => ({
  ...madeShift(timeS, fromCog, toCog, outcome),
  crankRevs: outcome === 'clean' ? 0.84321 : outcome === 'late' ? 2.5 : null,
  confidence: outcome === 'unjudged' ? 0 : 0.91239,
  probability: { clean: 1, late: 0, missed: 0, overshot: 0 },
  cadenceRpm: 80,
  unjudgedBecause: outcome === 'unjudged' ? 'no-pedalling' : null,
});

/** A log of `seconds` one-second records at 80 rpm and 6 m/s, with a pause of two minutes in its middle. */
function sampleLog(file: string, start: string, seconds = 600): RideLog {
  const timeS = Float64Array.from({ length: seconds }, (_, i) => i + (i >= seconds / 2 ? 120 : 0));
  const filled = (value: number) => new Float64Array(seconds).fill(value);
  return {
    file,
    format: 'fit',
    sport: 'cycling',
    startMs: Date.parse(start),
    timeS,
    speedMps: filled(6),
    cadenceRpm: filled(80),
    powerW: filled(Number.NaN),
    distanceM: filled(Number.NaN),
    speedSource: 'wheel',
    gearRecords: {
      timeS: new Float64Array(),
      rearTeeth: new Uint8Array(),
      frontTeeth: new Uint8Array(),
      rearPosition: new Uint8Array(),
      frontPosition: new Uint8Array(),
      wholeSeconds: true,
    },
    warnings: [{ code: 'cut-off', message: 'the end of the file is missing; what is whole was kept' }],
  };
}

function sampleTrace(log: RideLog): TracedGears {
  const records = log.timeS.length;
  return {
    cog: Int8Array.from({ length: records }, (_, i) => (i < 10 ? -1 : Math.floor(i / 100) % 9)),
    ring: new Int8Array(records),
    cogProbability: new Float32Array(records).fill(0.95),
    driving: new Float32Array(records).fill(1),
    gearSource: 'recorded',
    evidence: 'full',
    rolloutMm: 2287.4567,
    samples: pedallingSamples(log),
    measured: { chainrings: [32], cassette: [11, 13, 15, 18, 21, 24, 28, 32, null] },
    cogsOff: [],
    warnings: [],
  };
}

const dropSigns: readonly WeighedSign[] = [
  { sign: 'beforehand', value: Number.NaN, logOdds: -9 },
  { sign: 'legs-faster', value: Math.log(1.4), logOdds: 4 },
  { sign: 'legs-fast-for', value: 3, logOdds: 0 },
  { sign: 'records-below', value: 3, logOdds: 3 },
  { sign: 'past-gear', value: 0.085, logOdds: 0.85 },
  { sign: 'halt-after', value: 9, logOdds: 0 },
  { sign: 'halt-lasts', value: 41, logOdds: 2 },
];

export function sampleEvents(lateEvery: number): RideEvents {
  const shifts = Array.from({ length: 80 }, (_, i) => {
    const up = i % 16 < 8;
    const from = up ? i % 8 : 8 - (i % 8);
    const outcome: Outcome =
      i % 11 === 10 ? 'unjudged' : i % lateEvery === 0 ? 'late' : i % (3 * lateEvery) === 1 ? 'missed' : 'clean';
    return shiftAt(5 + i * 7, from, up ? from + 1 : from - 1, outcome);
  });
  return {
    shifts,
    ghostShifts: [{ timeS: 100.25, fromCog: 4, toCog: 3, heldS: 6.04, confidence: 0.8123, torqueNm: Number.NaN }],
    chainDrops: [{ timeS: 300, side: 'past-largest', afterShiftTo: 8, confidence: 0.7, signs: dropSigns }],
    skips: [{ timeS: 400.5, cog: 5, confidence: 0.66, leap: Math.log(1.18), torqueNm: 30 }],
    pedallingSByCog: new Float64Array(9).fill(60),
  };
}

const evidence: Partial<Record<Cause, string[]>> = {
  'cable-tension-low': ['Shifts to larger cogs: 18 of 70 late or missed. Shifts to smaller cogs: 3 of 66.'],
  'cable-friction': ['Both directions are slow, but to larger cogs more so, which speaks against it.'],
};

export const sampleDiagnosis: Diagnosis = {
  causes: causes
    .map((cause) => ({
      cause,
      probability: cause === 'cable-tension-low' ? 0.78 : cause === 'cable-friction' ? 0.12 : 0.01,
      evidence: evidence[cause] ?? [],
    }))
    .sort((a, b) => b.probability - a.probability),
  weighed: { rides: 2, judgedShifts: 146, weakShifts: 0, events: 6, pedallingHours: 0.3 },
  lateralOffsetMm: { mean: -0.42119, low: -0.7, high: -0.15 },
  lateralErrorMm: sampleBike.cassette.map((teeth, i) => ({ teeth, mean: -0.4 - 0.01 * i, low: -0.8, high: -0.1 })),
  clicks: { parameter: 'cable-tension', unit: 'clicks', mean: 2.4, low: 0.9, high: 4.1 },
  onset: { kind: 'steady', at: '2026-04-10T07:00:00.000Z', rideBeforeAt: null, probability: 0.6 },
  riderPart: {
    probability: 0.05,
    troubleRateLowTorque: null,
    troubleRateHighTorque: null,
    goneWithSoftLegs: false,
    sentence: '',
  },
  separates: {
    between: ['cable-tension-low', 'cable-friction'],
    bySkips: false,
    sentence: 'Twenty shifts to smaller cogs at light load would tell the two apart.',
  },
  undecided: null,
  checkRide: {
    blocks: [{ count: 10, fromTeeth: 15, toTeeth: 18, direction: 'to-larger', load: 'soft' }],
    sentences: ['Ten times from 15 to 18 teeth, pedalling softly.'],
    expectedBits: 0.4,
    ordinaryBits: 0.1,
  },
  unexplained: null,
  failsOnto: null,
  now: {
    fault: 'cable-tension-low',
    setting: 'same',
    byLastAdjustment: false,
    keepOff: [],
    lookedOver: [],
    foundRight: false,
    trial: null,
    pastTheMark: 0.01,
    since: {
      at: '2026-04-12T18:30:00Z',
      toLarger: { shifts: 36, trouble: 5 },
      toSmaller: { shifts: 37, trouble: 5 },
      ghostShifts: 1,
      skips: 1,
      chainDrops: { pastLargest: 1, pastSmallest: 0, elsewhere: 0 },
    },
  },
  stillThere: 0.9,
  limitOrHanger: false,
  anotherSince: null,
  laterCured: null,
  firstUntil: null,
  cured: false,
  shiftsWellSince: null,
  comparisons: [],
  wrongWays: [],
  helpedAgainst: [],
  notes: ['The second ride has few shifts onto the smallest cog.'],
  suggestion: {
    namesCause: true,
    inspectFirst: false,
    parameter: 'cable-tension',
    steps: ['Raise cable tension: turn the barrel adjuster anticlockwise.'],
    action: 'Raise cable tension: turn the barrel adjuster anticlockwise.',
    start: 'Look for damage and check the hanger first, then turn one click.',
    verify: 'Ride again and look whether shifts to larger cogs come at once.',
    cautions: ['Adjust on a stand or on smooth ground away from traffic.', 'Keep fingers out of a turning drivetrain.'],
    cautionKinds: ['by-hand', 'by-hand'],
  },
};

/** Newest rides that shift well after a fault. */
export const sampleWellSince = {
  ...{ at: '2026-04-14T06:30:00.000Z', shifts: 262, trouble: 0, there: { shifts: 120, trouble: 0 } },
  ...{ putRight: true, adjusted: false, entryAt: null as string | null },
};

const sampleAnalysis = (log: RideLog, lateEvery: number): RideAnalysis => ({
  log,
  trace: sampleTrace(log),
  events: sampleEvents(lateEvery),
  sensorLagS: 1.2345,
  lostDrive: [],
});

export const sampleAnalyses: readonly RideAnalysis[] = [
  sampleAnalysis(sampleLog('rides/2026-04-14 valley.fit', '2026-04-14T06:30:00Z'), 10),
  sampleAnalysis(sampleLog('rides/2026-04-10 pass.fit', '2026-04-10T07:00:00Z'), 5),
];

/** A whole report out of the shapes above. */
export function sampleReport(): Report {
  const adjustments = [
    { at: '2026-04-12T18:30:00Z', parameter: 'cable-tension', amount: 2, unit: 'clicks', note: '' } as const,
  ];
  const events = sampleAnalyses.map((analysis) => analysis.events);
  return buildReport({
    bike: sampleBike,
    bikeSource: 'given',
    bikeNotes: [{ code: 'rollout-differs', message: 'The rides show a rollout 0.1 % below the bike file.' }],
    bikeUnseenCogs: [],
    rides: sampleAnalyses.map((analysis) => ({ ...rideReport(analysis, sampleBike), leftOut: null, notTallied: null })),
    failed: [{ file: 'rides/broken.fit', code: 'no-records', message: 'rides/broken.fit: holds no ride records.' }],
    cogs: tallyCogs(events, sampleBike.cassette.length),
    skipsByCog: skipsByCog(
      sampleAnalyses.map((analysis) => ({ events: analysis.events, report: rideReport(analysis, sampleBike) })),
      sampleBike,
    ),
    diagnosis: sampleDiagnosis,
    adjustments: compareAdjustments(
      sampleAnalyses.map((analysis) => ({ startMs: analysis.log.startMs, durationS: 720, events: analysis.events })),
      adjustments,
      sampleBike.cassette.length,
    ),
  });
}
