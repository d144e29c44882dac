import { mean, median } from 'd3-array';
import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { cogCommands } from '../commands/cog-commands.ts';
import { secondsEvidence } from '../stories/seconds-evidence.ts';

/** A ride with what unasked shifts are looked for by. */
export interface GhostSearch {
  readonly log: RideLog;
  readonly trace: RideTrace;
  readonly model: GearModel;
  readonly commands: ReturnType<typeof cogCommands>;
  /** Log likelihood of a record at a log development. */
  readonly evidence: ReturnType<typeof secondsEvidence>;
  /** How late the ratio follows the gear records, s. */
  readonly sensorLagS: number;
}

/** Most cogs that a chain is taken to cross unasked: more at once is the sensors' doing, a lost chain's or a gear record's that is missing (assumption of ours). */
const MOST_COGS = 2;

/** A chain that moved rests on its new cog: the middle record of the run lies within so many deviations of it (assumption of ours). */
export const RESTS_WITHIN = 2;

/** Whether a move is too wide to be one of the chain's own. */
export const tooWide = (fromCog: number, toCog: number): boolean => Math.abs(toCog - fromCog) > MOST_COGS;

/**
 * Makes a ride ready for the search; null where nothing can be found, without a gear model or gear records.
 *
 * @param independence share of independent evidence in one record; the ride's own by default
 */
export function ghostSearch(
  log: RideLog,
  trace: RideTrace,
  sensorLagS: number,
  independence = trace.model?.noise.independence ?? 1,
): GhostSearch | null {
  const { model, commands } = trace;
  if (!model || commands.timeS.length === 0) return null;
  const evidence = secondsEvidence(log, trace, independence);
  return { log, trace, model, commands: cogCommands(commands), evidence, sensorLagS };
}

/** A recorder may write a gear down so much later than the chain went there, s (assumption of ours). */
const RECORDED_WITHIN_S = 3.25;
/** A rider whom the chain surprised may push the lever after it and then back, within so long, s (assumption of ours). */
const BACK_WITHIN_S = 5;

/**
 * Whether the next record names where a move went, or a cog further that way, soon enough to be the record of that very move, written down late.
 * Not where the rider pushes back at once: that is how one answers a chain that moved by itself.
 *
 * @param last index of the last command before the move
 */
export function isRecordedLate(
  { commands: { timeS, cog } }: Pick<GhostSearch, 'commands'>,
  last: number,
  { atS, fromCog, toCog }: { readonly atS: number; readonly fromCog: number; readonly toCog: number },
): boolean {
  const next = last + 1;
  if (!(timeS[next] - atS <= RECORDED_WITHIN_S) || cog[next] < 0) return false;
  const way = Math.sign(toCog - fromCog);
  const pushedBack = timeS[next + 1] - timeS[next] <= BACK_WITHIN_S && way * cog[next + 1] < way * cog[next];
  return way * cog[next] >= way * toCog && !pushedBack;
}

/** So long before and within a move the power is looked at, s, and the share of it that is left where the rider eases off. */
const POWER_BEFORE_S = 6;
const POWER_WITHIN_S = 5;
const EASED_TO = 0.55;
/** A cadence may be shown this much later than the power: what two records about the move show, and the share of the power before that is hardly any. */
const POWER_AHEAD_S = 3;
const POWER_AFTER_S = 2;
const HARDLY_ANY = 0.25;
/** What the rider usually presses: the median of the power above this, W, of so long before, s. So many records of it on the new cog are no easing off. Assumptions of ours. */
const PRESSES_W = 50;
const USUAL_WITHIN_S = 60;
const PRESSED_RECORDS = 5;

/** A move of the chain in question: the records from `start` up to `end`, on `toCog`. */
interface MovedRun {
  readonly start: number;
  readonly end: number;
  readonly toCog: number;
}

/**
 * Whether the ratio rose since the rider eased off: legs that slow down against a wheel that rolls on look like a smaller cog, and a
 * power meter that averages shows some power still. On a smaller cog it would not fall so far, or is soon back while the ratio stays. False
 * without a power meter.
 */
export function easedOff(ride: GhostSearch, run: MovedRun): boolean {
  const { timeS, powerW } = ride.log;
  const { start, end } = run;
  const within = (from: number, to: number): Float64Array =>
    powerW.filter((_, i) => timeS[i] >= timeS[start] + from && timeS[i] < timeS[start] + to);
  if (pressesOn(ride, run, median(within(-USUAL_WITHIN_S, 0).filter((watts) => watts > PRESSES_W)))) return false;
  const before = median(within(-POWER_BEFORE_S, 0)) ?? Number.NaN;
  const lastS = (timeS[end] ?? Number.POSITIVE_INFINITY) - timeS[start];
  const shown = mean(within(0, Math.min(POWER_WITHIN_S, lastS))) ?? Number.NaN;
  if (shown < EASED_TO * before) return true;
  const about = within(-POWER_AHEAD_S, POWER_AFTER_S);
  const earlier = median(within(-POWER_AHEAD_S - POWER_BEFORE_S, -POWER_AHEAD_S)) ?? Number.NaN;
  return about.some((watts, i) => i > 0 && (watts + about[i - 1]) / 2 < HARDLY_ANY * earlier);
}

/** Whether the rider presses on the new cog as usual. */
function pressesOn(ride: GhostSearch, { start, end, toCog }: MovedRun, usualW: number | undefined): boolean {
  const { log, trace } = ride;
  let pressed = 0;
  for (let i = start; i < end; i++) {
    const off = Math.abs(trace.logDevelopment[i] - levelAt(ride, i, toCog));
    if (log.powerW[i] > EASED_TO * (usualW ?? Number.NaN) && off < RESTS_WITHIN * trace.deviation[i]) pressed++;
  }
  return pressed >= PRESSED_RECORDS;
}

/** Log development of a cog on a ring. */
export const levelOn = ({ model }: GhostSearch, ring: number, cog: number): number =>
  model.logDevelopment[ring * model.cogs + cog];

/** Log development of a cog on the ring of a record. */
export const levelAt = (ride: GhostSearch, record: number, cog: number): number =>
  levelOn(ride, ride.trace.ring[record], cog);
