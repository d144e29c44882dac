import { median } from 'd3-array';
import { studentT4 } from '../../numeric/student-t.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { BikeRide } from '../bike-ride.ts';
import type { GearCommands } from '../commands/gear-commands.ts';
import type { DecodedGears } from '../decoding/decode-gears.ts';
import type { GearModel } from '../gear-model.ts';

/** A chain is on its way for so long after a command. */
const UNDER_WAY_S = 4;
/** With less power the legs may not drive: the ratio then lies above the gear. */
const WORKING_W = 40;
/** Single seconds err, drift does not: the middle of so many records before and after, not fewer than this in all, is looked at. */
const RECORDS_ABOUT = 3;
const LEAST_ABOUT = 3;
/** So many records show where a gear's ratio rests in this ride. */
const GEAR_RECORDS = 60;
/** Share of records that no cog explains in a ride whose speed is steady. */
const ASTRAY = 0.1;

/**
 * Log odds, record by record, that the ratio lies anywhere between the cogs rather than on one of them. 0 where the record says nothing:
 * without a known gear that is driven, and while the chain may be on its way. A ratio above the gear says nothing without a power meter, for
 * soft pedalling lifts it.
 */
export function betweenCogs(
  { log, commands }: Pick<BikeRide, 'log' | 'commands'>,
  decoded: DecodedGears,
  model: GearModel,
): Float64Array {
  const lifted = offGear(log, decoded, commands, model);
  const resting = restingOff(lifted, decoded, model);
  return lifted.map((_, i) => {
    const off = middleAbout(log.timeS, decoded.cog, lifted, i) - resting[decoded.ring[i] * model.cogs + decoded.cog[i]];
    if (Number.isNaN(off)) return 0;
    const { toSmaller, toLarger } = stepsBeside(model, decoded.ring[i], decoded.cog[i]);
    const width = (off > 0 ? toSmaller : toLarger) || toSmaller || toLarger;
    const onCogs = [0, toSmaller, -toLarger]
      .filter((cogAt) => !Number.isNaN(cogAt))
      .reduce((sum, cogAt) => sum + studentT4((off - cogAt) / decoded.deviation[i], decoded.deviation[i]), 0);
    const logOdds = -model.noise.independence * Math.log((1 - ASTRAY) * onCogs * width + ASTRAY);
    return Number.isNaN(log.powerW[i]) && off > 0 ? Math.min(0, logOdds) : logOdds;
  });
}

/** How far the log development lies above the decoded gear; NaN where the record says nothing. */
function offGear(
  { timeS, powerW }: RideLog,
  { cog, ring, driving, logDevelopment, deviation }: DecodedGears,
  commands: GearCommands,
  model: GearModel,
): Float64Array {
  return timeS.map((s, i) => {
    if (cog[i] < 0 || ring[i] < 0 || !(driving[i] > 0.5) || powerW[i] < WORKING_W) return Number.NaN;
    const command = commands.latest[i];
    if (command >= 0 && s - commands.timeS[command] < UNDER_WAY_S) return Number.NaN;
    if (Number.isNaN(deviation[i])) return Number.NaN;
    return logDevelopment[i] - model.logDevelopment[ring[i] * model.cogs + cog[i]];
  });
}

/** Where each gear's ratio rests against its level: teeth that are not as written are no drift. 0 for a gear hardly ridden. */
function restingOff(lifted: Float64Array, { cog, ring }: DecodedGears, model: GearModel): Float64Array {
  const byGear: number[][] = Array.from(model.logDevelopment, () => []);
  lifted.forEach((off, i) => {
    if (!Number.isNaN(off)) byGear[ring[i] * model.cogs + cog[i]].push(off);
  });
  return Float64Array.from(byGear, (offs) => (offs.length < GEAR_RECORDS ? 0 : (median(offs) as number)));
}

/** The middle value of the records about one on its cog; NaN where too few are. */
function middleAbout(timeS: Float64Array, cog: Int8Array, values: Float64Array, at: number): number {
  if (Number.isNaN(values[at])) return Number.NaN;
  const about: number[] = [];
  for (let i = Math.max(0, at - RECORDS_ABOUT); i <= at + RECORDS_ABOUT && i < values.length; i++)
    if (cog[i] === cog[at] && Math.abs(timeS[i] - timeS[at]) <= RECORDS_ABOUT + 1 && !Number.isNaN(values[i]))
      about.push(values[i]);
  return about.length < LEAST_ABOUT ? Number.NaN : (median(about) as number);
}

/** Log steps from a cog to its neighbours; NaN where an end cog has none. */
function stepsBeside(
  { logDevelopment, cogs }: GearModel,
  ring: number,
  cog: number,
): { readonly toSmaller: number; readonly toLarger: number } {
  const level = (c: number): number => (c >= 0 && c < cogs ? logDevelopment[ring * cogs + c] : Number.NaN);
  return { toSmaller: level(cog - 1) - level(cog), toLarger: level(cog) - level(cog + 1) };
}
