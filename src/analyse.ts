import { actuationAsLogged } from './adjustments/actuation-as-logged.ts';
import type { Adjustment } from './adjustments/adjustment.ts';
import { inOrderOfTime } from './adjustments/in-order-of-time.ts';
import { looksOf } from './adjustments/looks.ts';
import { tallyCogs } from './cogs/tally-cogs.ts';
import { unseenCogs } from './cogs/unseen-cogs.ts';
import { diagnose } from './diagnosis/diagnose.ts';
import type { Bike } from './drivetrain/bike.ts';
import type { Warning } from './errors/warning.ts';
import type { RideTrace } from './gear-trace/gear-trace.ts';
import { guessDrivetrain } from './gear-trace/guess/guess-drivetrain.ts';
import { drivetrainUnknown } from './gear-trace/guess/unknown-drivetrain.ts';
import { traceGears } from './gear-trace/trace-gears.ts';
import { buildReport } from './report/build-report.ts';
import { skipsByCog } from './report/cog-skips.ts';
import { holdBack } from './report/held/hold-back.ts';
import { setAsideNote } from './report/held/set-aside-note.ts';
import { leftOutNote, ownRides } from './report/own-rides.ts';
import type { FailedRide, Report } from './report/report-schema.ts';
import type { RideFindings } from './report/ride-findings.ts';
import { rideReport } from './report/ride-report.ts';
import { sparseNote } from './report/sparse-note.ts';
import { twoCogsNote } from './report/two-cogs-note.ts';
import type { RideLog } from './ride-log/ride-log.ts';
import type { LostDrive } from './shifts/drops/lost-drive.ts';
import { judgeRide } from './shifts/judge-ride.ts';
import type { RideEvents } from './shifts/ride-events.ts';

/** Raised whenever the engine may judge a ride otherwise than before: what was kept of an older one is worked out anew. */
export const ENGINE_VERSION = 38;

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
  const { bike, notes: bikeNotes } = actuationAsLogged(guess, inOrderOfTime(adjustments));
  return { bike, bikeSource: 'guessed', bikeNotes, bikeCertainty: guess.certainty, bikeMadeUpCogs: guess.madeUpCogs };
}

/** Traces and judges one ride; needs no other ride, so its result can be kept until bike or engine change. */
export function analyseRide(log: RideLog, bike: Bike): AnalysedRide {
  const trace = traceGears(log, bike);
  return { log, trace, ...judgeRide(log, trace, bike.cassette.length) };
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
  logged: readonly Adjustment[],
  failed: readonly FailedRide[],
): Report {
  const { bike } = chosen;
  const adjustments = inOrderOfTime(logged);
  const cogs = bike.cassette.length;
  const { own, listed, held } = ownRides(rides, { ...chosen, adjustments });
  const unseen = unseenOf(chosen, own);
  const found = diagnose({
    bike,
    rides: held ? own.map(notWeighed) : own,
    adjustments,
    cogsKnown: !drivetrainUnknown(chosen.bikeNotes),
    ridesLeftOut: rides.length - own.length,
    unseenCogs: unseen,
  });
  const notes = [
    ...leftOutNote(listed),
    ...(held ? [] : setAsideNote(listed)),
    ...sparseNote(own.map(({ report }) => report)),
    ...twoCogsNote(own.map(({ report }) => report)),
    ...found.notes,
  ];
  const diagnosis = holdBack({ ...found, notes }, held, bike);
  return buildReport({
    ...chosen,
    bikeUnseenCogs: unseen,
    rides: listed,
    failed,
    cogs: tallyCogs(
      own.map(({ events }) => events),
      cogs,
    ),
    skipsByCog: skipsByCog(own, bike),
    diagnosis,
    heldBack: held,
    adjustments: diagnosis.comparisons,
    looks: looksOf(adjustments, bike.actuation),
  });
}

/** A ride whose shifts tell nothing of a part, though what was adjusted is compared by them. */
const notWeighed = (ride: RideFindings): RideFindings => ({ ...ride, evidence: 'none' });

/** Cassette indices of a guessed bike's cogs that no ride shows: those that the guess itself made up, else those that the rides leave out. */
function unseenOf({ bike, bikeSource, bikeMadeUpCogs }: ChosenBike, rides: readonly RideFindings[]): number[] {
  if (bikeSource === 'given') return [];
  if (bikeMadeUpCogs) return bikeMadeUpCogs.map((teeth) => bike.cassette.indexOf(teeth));
  const seen = rides.map(({ report, events }) => ({ measured: report.measured, shifts: events.shifts }));
  return unseenCogs(seen, bike.cassette.length);
}
