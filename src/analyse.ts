import { actuationAsLogged } from './adjustments/actuation-as-logged.ts';
import type { Adjustment } from './adjustments/adjustment.ts';
import { tallyCogs } from './cogs/tally-cogs.ts';
import { unseenCogs } from './cogs/unseen-cogs.ts';
import { diagnose } from './diagnosis/diagnose.ts';
import { describeRings } from './diagnosis/next-step/describe-rings.ts';
import type { Bike } from './drivetrain/bike.ts';
import type { Warning } from './errors/warning.ts';
import { foreignRides } from './gear-trace/belonging/foreign-rides.ts';
import { teethDiffer } from './gear-trace/disagreement/gear-warnings.ts';
import type { EvidenceKind, RideTrace } from './gear-trace/gear-trace.ts';
import { guessDrivetrain } from './gear-trace/guess/guess-drivetrain.ts';
import { drivetrainUnknown } from './gear-trace/guess/unknown-drivetrain.ts';
import { ringsUnclear } from './gear-trace/guess/unrecorded-rings.ts';
import { traceGears } from './gear-trace/trace-gears.ts';
import { buildReport } from './report/build-report.ts';
import type { BikeRide, FailedRide, Report, RideReport } from './report/report-schema.ts';
import { rideReport } from './report/ride-report.ts';
import { warnOfUnclearRings } from './report/rings-unclear-warning.ts';
import { sparseNote } from './report/sparse-note.ts';
import { warnOfOverlaps } from './report/warn-of-overlaps.ts';
import type { RideLog } from './ride-log/ride-log.ts';
import type { LostDrive } from './shifts/drops/lost-drive.ts';
import { judgeRide } from './shifts/judge-ride.ts';
import type { RideEvents } from './shifts/ride-events.ts';

/** Raised whenever the engine may judge a ride otherwise than before: what was kept of an older one is worked out anew. */
export const ENGINE_VERSION = 15;

/** One ride, traced and judged. */
export interface AnalysedRide {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly events: RideEvents;
  /** How much later the speed-to-cadence ratio follows the gear records, s; NaN without either. */
  readonly sensorLagS: number;
  /** Where drive was lost: there the chain is on none of the cogs that the trace names. */
  readonly lostDrive: readonly LostDrive[];
}

/** The bike that rides are read against, and where it came from. */
export interface ChosenBike {
  readonly bike: Bike;
  readonly bikeSource: 'given' | 'guessed';
  readonly bikeNotes: readonly Warning[];
  /** How likely a guessed bike is right, 0 to 1; absent for a given one. */
  readonly bikeCertainty?: number;
  /** Cogs of a guessed bike, in teeth, that its notes call made up; absent where the bike was not guessed from these very rides. */
  readonly bikeMadeUpCogs?: readonly number[];
}

/** What the engine is given beside the rides. */
export interface AnalyseOptions {
  /** Null: the drivetrain is guessed from the rides. */
  readonly bike: Bike | null;
  readonly adjustments: readonly Adjustment[];
  /** Rides that could not be read, to be listed in the report. */
  readonly failed?: readonly FailedRide[];
  /** Called with each ride when it is judged, for progress. */
  readonly onRide?: (ride: AnalysedRide) => void;
}

/** Runs the stages in order over the rides of one bike: the place to read first. */
export function analyse(logs: readonly RideLog[], options: AnalyseOptions): Report {
  const chosen = chooseBike(logs, options.bike, options.adjustments);
  const rides = logs.map((log) => {
    const ride = analyseRide(log, chosen.bike);
    options.onRide?.(ride);
    return rideFindings(ride, chosen.bike);
  });
  return concludeBike(chosen, rides, options.adjustments, options.failed ?? []);
}

/** The given bike, else one guessed from the rides; what was adjusted tells its actuation. */
export function chooseBike(
  logs: readonly RideLog[],
  given: Bike | null,
  adjustments: readonly Adjustment[] = [],
): ChosenBike {
  if (given) return { bike: given, bikeSource: 'given', bikeNotes: [] };
  const guess = guessDrivetrain(logs);
  const { bike, notes: bikeNotes } = actuationAsLogged(guess, adjustments);
  return { bike, bikeSource: 'guessed', bikeNotes, bikeCertainty: guess.certainty, bikeMadeUpCogs: guess.madeUpCogs };
}

/** Traces and judges one ride; needs no other ride, so its result can be kept until bike or engine change. */
export function analyseRide(log: RideLog, bike: Bike): AnalysedRide {
  const trace = traceGears(log, bike);
  return { log, trace, ...judgeRide(log, trace, bike.cassette.length) };
}

/** What is kept of a judged ride to draw conclusions from: all but its columns. */
export interface RideFindings {
  /** Unix milliseconds; a moment of 1970 where the log has no clock. */
  readonly startMs: number;
  readonly durationS: number;
  readonly evidence: EvidenceKind;
  readonly events: RideEvents;
  readonly report: RideReport;
}

/** Takes the findings out of a judged ride. */
export function rideFindings(ride: AnalysedRide, bike: Bike): RideFindings {
  const { log, trace, events } = ride;
  return {
    startMs: log.startMs,
    durationS: (log.timeS.at(-1) ?? 0) - (log.timeS[0] ?? 0),
    evidence: trace.evidence,
    events,
    report: rideReport(ride, bike),
  };
}

/** Draws the conclusions from the findings of all rides of a bike: tallies, adjustments, diagnosis, report. */
export function concludeBike(
  chosen: ChosenBike,
  rides: readonly RideFindings[],
  adjustments: readonly Adjustment[],
  failed: readonly FailedRide[],
): Report {
  const { bike } = chosen;
  const cogs = bike.cassette.length;
  const own = ridesToGoBy(rides, chosen);
  const listed = listRides(rides, chosen);
  const unseen = unseenOf(chosen, own);
  const cogsKnown = !drivetrainUnknown(chosen.bikeNotes);
  const found = diagnose({
    ...{ bike, rides: own, adjustments, cogsKnown },
    ridesLeftOut: rides.length - own.length,
    unseenCogs: unseen,
  });
  const notes = [...leftOutNote(listed), ...sparseNote(own.map(({ report }) => report)), ...found.notes];
  const suggestion = ringsUnclear(chosen.bikeNotes) ? describeRings(found.suggestion) : found.suggestion;
  const diagnosis = { ...found, notes, suggestion };
  return buildReport({
    ...chosen,
    bikeUnseenCogs: unseen,
    rides: listed,
    failed,
    cogs: tallyCogs(
      own.map(({ events }) => events),
      cogs,
    ),
    diagnosis,
    adjustments: diagnosis.comparisons,
  });
}

/** Cassette indices of a guessed bike's cogs that no ride shows: those that the guess itself made up, else those that the rides leave out. */
function unseenOf({ bike, bikeSource, bikeMadeUpCogs }: ChosenBike, rides: readonly RideFindings[]): number[] {
  if (bikeSource === 'given') return [];
  if (bikeMadeUpCogs) return bikeMadeUpCogs.map((teeth) => bike.cassette.indexOf(teeth));
  const seen = rides.map(({ report, events }) => ({ measured: report.measured, shifts: events.shifts }));
  return unseenCogs(seen, bike.cassette.length);
}

/** As much of a ride as tells whether it is its bike's. */
type RecordedRide = Pick<RideFindings, 'evidence' | 'report'>;

/** Those of a bike's rides that count for it: all but those that look like another bike's. */
export function ownRides<Ride extends RecordedRide>(rides: readonly Ride[]): Ride[] {
  const reasons = whyLeftOut(rides);
  return rides.filter((_, i) => reasons[i] === null);
}

/** Its own rides, as far as conclusions are drawn from them: where nobody knows how many rings it has, from the chains that were lost alone. */
export function ridesToGoBy<Ride extends RideFindings>(
  rides: readonly Ride[],
  { bikeNotes }: Pick<ChosenBike, 'bikeNotes'>,
): Ride[] {
  const own = ownRides(rides);
  return ringsUnclear(bikeNotes) ? own.map(withoutShifts) : own;
}

const withoutShifts = <Ride extends RideFindings>(ride: Ride): Ride => ({
  ...ride,
  evidence: 'none',
  events: { ...ride.events, shifts: [], ghostShifts: [], skips: [] },
});

/** The rides of a bike, in the order given, as its report lists them: with whether each counts, and what is said of it beside the others. */
export function listRides(
  rides: readonly RecordedRide[],
  { bikeSource, bikeNotes }: Pick<ChosenBike, 'bikeSource' | 'bikeNotes'>,
): BikeRide[] {
  const reasons = whyLeftOut(rides);
  const listed = rides.map(({ report }, i) => ({
    ...(bikeSource === 'guessed' ? againstGuess(report) : report),
    leftOut: reasons[i],
  }));
  return warnOfOverlaps(ringsUnclear(bikeNotes) ? listed.map(warnOfUnclearRings) : listed);
}

/** Why each ride does not count for its bike; null where it does. */
function whyLeftOut(rides: readonly RecordedRide[]): BikeRide['leftOut'][] {
  const foreign = foreignRides(rides.map(({ evidence, report }) => recordedCodes(evidence, report)));
  return foreign.map((is) => (is ? 'another-bike' : null));
}

/** Codes of what was noted about a ride with gear records; null for one without. */
function recordedCodes(evidence: EvidenceKind, { warnings }: RideReport): string[] | null {
  return evidence === 'full' || evidence === 'commands-only' ? warnings.map(({ code }) => code) : null;
}

/** Nobody wrote the teeth of a guessed bike, so a ride cannot show that they are not as written. */
function againstGuess(report: RideReport): RideReport {
  return { ...report, warnings: report.warnings.filter(({ code }) => code !== teethDiffer) };
}

function leftOutNote(rides: readonly BikeRide[]): string[] {
  const foreign = rides.filter(({ leftOut }) => leftOut === 'another-bike');
  if (foreign.length === 0) return [];
  const files = foreign.map(({ file }) => file).join(', ');
  return [
    `Left out of the verdict, the cogs and the adjustments: ${files}. By the gear records ${foreign.length === 1 ? 'it looks' : 'they look'} like another bike's; if this is the bike, its rings or cogs are not as written.`,
  ];
}
