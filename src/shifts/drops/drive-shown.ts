import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { endWithin, firstWithin } from '../records-about.ts';
import { IDLE_W, WORKING_W } from './rider-power.ts';
import type { DropSearch, LowRun, RunSigns } from './run-signs.ts';
import { gainWithoutDrive, speedGain } from './speed-gain.ts';

/** The legs must run this much faster than before: a cadence that a sensor merely holds while the bike brakes does not. */
const MIN_SPIN = 0.05;
/** The same against the one record before, which may already be half and half. */
const MIN_HELD_SPIN = 0.03;
/** Where a power meter shows that the rider does nothing, only a slope can speed the bike up. */
const MAX_GAIN_DOWNHILL = 1.15;
/** Legs that worked on such a ratio so shortly before show that the speed is astray. */
const ASTRAY_S = 8;
/** Seconds after the run in which a bike without drive can gain neither speed nor power. */
const AFTERWARDS_S = 5;
/** A run this long with the power gone is no slip of one reading, even if the rider soon has the chain back on. */
const SURE_RECORDS = 2;
/** Without gear records nothing says which gear was asked for: a single reading is too little. */
const LEAST_UNRECORDED = 2;
/** A spike this short is followed at once by this many records on one gear where the chain merely slipped. */
const SPIKE_RECORDS = 2;
const BACK_RECORDS = 2;
/** A run rests on a gear where it has so many records or, in a sparse log, lasts so long, and this share of its records lie there. */
const RESTING_RECORDS = 4;
const RESTING_S = 6;
const RESTING_SHARE = 0.8;
/** A bike that goes this much faster than as the run began is driven. */
const DRIVEN_GAIN = 1.02;
/** A run that is shorter is looked at with the records after it, up to so many. */
const RESTS_ON_RECORDS = 8;
/** Within this many deviations of a gear's development the chain drives there. */
const ON_GEAR_DEVIATIONS = 2.5;

/** No sensor holds or averages its last reading for longer, s; so many different readings in a longer run are news of legs that turn (assumptions of ours). */
const HELD_AT_MOST_S = 6;
const NEWS = 3;

/** A reason why drive was not lost in a run. */
interface DriveSign {
  /** What it is, for whoever looks into why a run is no lost chain. */
  readonly name: string;
  /** Whether it counts even where a power meter shows that the rider does nothing. */
  readonly despitePowerGone: boolean;
  readonly holds: (search: DropSearch, run: LowRun, signs: RunSigns) => boolean;
}

/** What shows that the chain still drove, or that a run was too little seen, whatever its other signs. */
const driveSigns: readonly DriveSign[] = [
  {
    name: 'legs-no-faster',
    despitePowerGone: true,
    holds: ({ log }, run, signs) => !(signs.spin > MIN_SPIN) && !turnsOn(log, run, signs),
  },
  {
    name: 'reading-held',
    despitePowerGone: true,
    holds: ({ log }, run, signs) => isHeld(log, run) && !turnsOn(log, run, signs),
  },
  { name: 'powered-below', despitePowerGone: true, holds: poweredBelow },
  { name: 'gains-speed', despitePowerGone: true, holds: gainsSpeed },
  {
    name: 'drive-follows',
    despitePowerGone: true,
    holds: ({ log }, run, { powerGone }) => driveFollows(log, run, powerGone),
  },
  { name: 'rests-on-gear', despitePowerGone: false, holds: ({ log, trace }, run) => restsOnGear(log, trace, run) },
  { name: 'back-on-gear', despitePowerGone: true, holds: ({ trace }, run) => backOnGear(trace, run) },
  { name: 'drives-on', despitePowerGone: false, holds: ({ trace }, run) => drivesOn(trace, run) },
  {
    name: 'single-unrecorded',
    despitePowerGone: true,
    holds: ({ trace }, { start, end }) => trace.commands.timeS.length === 0 && end - start < LEAST_UNRECORDED,
  },
];

/** The name of the first of them that holds for a run; null where none does. */
export const driveShown = (search: DropSearch, run: LowRun, signs: RunSigns): string | null =>
  driveSigns.find(({ despitePowerGone, holds }) => (despitePowerGone || !signs.powerGone) && holds(search, run, signs))
    ?.name ?? null;

/** Whether the bike gained more speed over the run than one without drive can. */
function gainsSpeed({ log }: DropSearch, { start, end }: LowRun, { promise, powerGone }: RunSigns): boolean {
  return speedGain(log, start, end) > (powerGone ? MAX_GAIN_DOWNHILL : gainWithoutDrive(promise));
}

/** Whether the legs ran no faster than in the record just before: a sensor that holds its last reading while the bike brakes. */
function isHeld({ cadenceRpm }: RideLog, { start, end }: LowRun): boolean {
  let fastest = 0;
  for (let i = start; i < end; i++) fastest = Math.max(fastest, cadenceRpm[i]);
  return cadenceRpm[start - 1] > PEDALLING_RPM && Math.log(fastest / cadenceRpm[start - 1]) < MIN_HELD_SPIN;
}

/** Whether the legs turned on for longer than any sensor holds a reading: then they need not be faster to have lost the wheel. */
const turnsOn = ({ cadenceRpm }: RideLog, { start, end }: LowRun, { lastedS, powerGone }: RunSigns): boolean =>
  lastedS > HELD_AT_MOST_S && (powerGone || new Set(cadenceRpm.subarray(start, end)).size >= NEWS);

/** Whether the legs did work on such a ratio shortly before or within the run: then the speed is astray. The run's first second may be half and half. */
function poweredBelow({ log, below }: DropSearch, { start, end }: LowRun): boolean {
  for (let i = firstWithin(log.timeS, start, ASTRAY_S); i < end; i++)
    if (i !== start && log.powerW[i] > WORKING_W && below.depth(i) > below.threshold(i)) return true;
  return false;
}

/** Whether the bike is driven again right after a short run: it gains speed (unless a power meter shows why not), or power is back. */
function driveFollows(log: RideLog, { start, end }: LowRun, powerGone: boolean): boolean {
  if (powerGone && log.powerW.subarray(start, end).filter((watts) => watts < IDLE_W).length >= SURE_RECORDS)
    return false;
  const until = endWithin(log.timeS, end - 1, AFTERWARDS_S);
  for (let i = end; i < until; i++) {
    if (log.powerW[i] > WORKING_W) return true;
    if (!powerGone && log.speedMps[i] > log.speedMps[start] * DRIVEN_GAIN) return true;
  }
  return false;
}

/**
 * Whether the run rests on one gear's development, it alone or with the records after it: then the chain drives there, and it was an unasked
 * shift. Its first record may be half and half. The gears in question change as the trace follows the chain, so a run may end while the chain stays.
 */
function restsOnGear({ timeS }: RideLog, { model, logDevelopment, deviation }: RideTrace, run: LowRun): boolean {
  if (!model) return false;
  const isLong = (start: number, end: number): boolean =>
    end - start >= RESTING_RECORDS || (end - start > 1 && timeS[end - 1] - timeS[start] >= RESTING_S);
  const restsUntil = (start: number, end: number): boolean =>
    isLong(start, end) &&
    model.logDevelopment.some((level) => {
      let on = 0;
      for (let i = start; i < end; i++)
        if (Math.abs(logDevelopment[i] - level) < ON_GEAR_DEVIATIONS * deviation[i]) on++;
      return on >= RESTING_SHARE * (end - start);
    });
  return restsUntil(run.start, run.end) || restsUntil(run.start + 1, Math.max(run.end, run.start + RESTS_ON_RECORDS));
}

/** Whether a short run ends with the chain driving on the gear it drove before: then it slipped over teeth, or a reading went wrong. */
function backOnGear({ model, logDevelopment, deviation, ring, cog }: RideTrace, { start, end }: LowRun): boolean {
  if (!model || end - start > SPIKE_RECORDS || ring[start - 1] < 0 || cog[start - 1] < 0) return false;
  const level = model.logDevelopment[ring[start - 1] * model.cogs + cog[start - 1]];
  for (let i = end; i < end + BACK_RECORDS; i++)
    if (!(Math.abs(logDevelopment[i] - level) < ON_GEAR_DEVIATIONS * deviation[i])) return false;
  return true;
}

/** After a short run, so many records in a row on one gear, begun within so many records, are steady driving. */
const STEADY_RECORDS = 5;
const STEADY_BEGINS_WITHIN = 4;

/** Whether a short run is soon followed by steady driving on one gear, whichever: nobody puts a chain back on within a second or two of pedalling. */
function drivesOn({ model, logDevelopment, deviation }: RideTrace, { start, end }: LowRun): boolean {
  if (!model || end - start > SPIKE_RECORDS) return false;
  return model.logDevelopment.some((level) => {
    let inRow = 0;
    for (let i = end; i < end + STEADY_BEGINS_WITHIN + STEADY_RECORDS; i++) {
      inRow = Math.abs(logDevelopment[i] - level) < ON_GEAR_DEVIATIONS * deviation[i] ? inRow + 1 : 0;
      if (inRow === STEADY_RECORDS) return true;
    }
    return false;
  });
}

/** So many records in a row on one of the gears are driving. */
const DRIVING_RECORDS = 3;

/** Whether the legs drive the bike on one of its gears within so many seconds after a run. */
export function drivesAgain(log: RideLog, trace: RideTrace, { end }: LowRun, withinS: number): boolean {
  let inRow = 0;
  for (let i = end; i < log.timeS.length && log.timeS[i] - log.timeS[end - 1] < withinS; i++) {
    inRow = onSomeGear(trace, i) && !(log.powerW[i] < IDLE_W) ? inRow + 1 : 0;
    if (inRow === DRIVING_RECORDS) return true;
  }
  return false;
}

/** Whether a record lies on the development of one of the gears. */
export function onSomeGear({ model, logDevelopment, deviation }: RideTrace, i: number): boolean {
  return (
    model?.logDevelopment.some((level) => Math.abs(logDevelopment[i] - level) < ON_GEAR_DEVIATIONS * deviation[i]) ??
    false
  );
}
