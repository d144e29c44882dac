import type { GearModel } from '../../gear-trace/gear-model.ts';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { pedalledSeconds } from '../../gear-trace/samples/pedalled-seconds.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { GearsSince } from './gears-since.ts';

/** A command, a late shift and the sensors' lag together take no longer than this. */
const LOOK_BACK_S = 10;
/** The chain moves only while the cranks turn: after coasting it may still lie where it lay before the commands. */
const LOOK_BACK_PEDALLED_S = 5;

/**
 * Log development of the lowest gear in question at each record: of all cogs and rings commanded in the last 10 s,
 * or traced 4 to 10 s ago, the easiest. Without gear records any shift may have been made, so it is the bike's lowest gear.
 */
export function lowestLevels(log: RideLog, trace: RideTrace): Float64Array {
  const { model, commands } = trace;
  const levels = new Float64Array(log.timeS.length).fill(Number.NEGATIVE_INFINITY);
  if (!model) return levels;
  if (commands.timeS.length === 0) return levels.fill(Math.min(...model.logDevelopment));
  const pedalledS = new Float64Array(levels.length);
  for (let i = 1; i < levels.length; i++) pedalledS[i] = pedalledS[i - 1] + pedalledSeconds(trace.samples, i);
  const arrived = arrivals(trace);
  const gears = new GearsSince(log, trace);
  let first = 0;
  for (let i = 0; i < levels.length; i++) {
    while (log.timeS[i] - log.timeS[first] > LOOK_BACK_S && pedalledS[i] - pedalledS[first] > LOOK_BACK_PEDALLED_S)
      first++;
    if (arrived[i] > first) first = arrived[i];
    levels[i] = lowestLevel(model, gears.between(first, i));
  }
  return levels;
}

/** Log development of the largest cog in question on the ring that gives the lowest; the bike's lowest where no cog is known. */
function lowestLevel({ logDevelopment, rings, cogs }: GearModel, { largest, rings: asked }: GearsSince): number {
  if (largest < 0) return Math.min(...logDevelopment);
  let lowest = Number.POSITIVE_INFINITY;
  // a ring that nobody recorded may be any; a change of ring lets the chain be on either
  const anyRing = asked.size === 0 || asked.has(-1);
  for (let ring = 0; ring < rings; ring++)
    if (anyRing || asked.has(ring)) lowest = Math.min(lowest, logDevelopment[ring * cogs + largest]);
  return lowest;
}

/** So many records on the commanded cog's ratio, one after another, show that the chain has come there. */
const ARRIVED_RECORDS = 2;
/** Within so many deviations of it. */
const ARRIVED_WITHIN = 1.5;

/**
 * For each record the last one before it by which the ratio itself showed the chain on an end cog that was commanded last; -1 without
 * one. Only past the end cogs can a chain leave the cassette: elsewhere all gears of the last seconds stay in question.
 */
function arrivals({ model, commands, logDevelopment, deviation, ring }: RideTrace): Int32Array {
  const arrived = new Int32Array(logDevelopment.length).fill(-1);
  if (!model) return arrived;
  let run = 0;
  for (let i = 1; i < arrived.length; i++) {
    arrived[i] = arrived[i - 1];
    const command = commands.latest[i];
    const cog = command >= 0 ? commands.cog[command] : -1;
    if (command !== commands.latest[i - 1]) run = 0;
    if ((cog !== 0 && cog !== model.cogs - 1) || ring[i] < 0) continue;
    const off = logDevelopment[i] - model.logDevelopment[ring[i] * model.cogs + cog];
    if (Number.isNaN(off)) continue;
    run = Math.abs(off) < ARRIVED_WITHIN * deviation[i] ? run + 1 : 0;
    if (run >= ARRIVED_RECORDS) arrived[i] = i;
  }
  return arrived;
}
