import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import type { ChainDropEvent } from '../ride-events.ts';
import { onSomeGear } from './drive-shown.ts';
import { IDLE_W, WORKING_W } from './rider-power.ts';

/** Records in which drive was lost, as indices into the ride log; `end` exclusive. */
export interface LostDrive {
  readonly start: number;
  readonly end: number;
}

/** So many records on one cog before a drop show that the chain had come there; fewer are legs that already spun. */
const ARRIVED_RECORDS = 2;
/** Slower than this nobody rides on. */
const RIDING_MPS = 1;
/** A longer gap between two records is a halt. */
const PAUSE_S = 8;
/** So many records in a row must show that the chain drives: after a halt, in which it was put back, and without one. */
const DRIVING_RECORDS = { afterHalt: 2, rolling: 4 } as const;

/** For each lost chain the records until the chain drives again, to the ride's end where it does not; a later drop within them adds none. */
export function lostDrive(log: RideLog, trace: RideTrace, drops: readonly ChainDropEvent[]): LostDrive[] {
  const spells: LostDrive[] = [];
  for (const drop of drops) {
    const before = spells.at(-1)?.end ?? 0;
    const at = recordAt(log, drop.timeS);
    if (at >= before && at < log.timeS.length)
      spells.push({ start: beforeArrival(trace, at, before), end: drivenFrom(log, trace, stillOff(log, drop, at)) });
  }
  return spells;
}

const recordAt = ({ timeS }: RideLog, momentS: number): number => firstAfter(timeS, momentS - 0.001);

/** The first record of a cog that the trace named for too short before a drop: the spin that was to come looked like arrival. */
function beforeArrival({ cog }: RideTrace, at: number, from: number): number {
  let start = at;
  while (start > from && cog[start - 1] === cog[at - 1]) start--;
  return at - start < ARRIVED_RECORDS ? start : at;
}

/**
 * The first record from which on the chain may drive again. Where the drop was told by legs that stopped for a halt, or nothing but the
 * ratio could tell, that is the halt: on their way there the spinning legs pass the ratios of other cogs.
 */
function stillOff(log: RideLog, { timeS, signs = [] }: ChainDropEvent, at: number): number {
  const halt = signs.find(({ sign }) => sign === 'halt-after');
  const legsStopped = signs.some(({ sign }) => sign === 'legs-stopped-after');
  return halt && (legsStopped || Number.isNaN(log.powerW[at])) ? recordAt(log, timeS + halt.value) : at + 1;
}

/** The first record from `from` on in which the chain drives again: after a halt the one with which the legs set off. */
function drivenFrom(log: RideLog, trace: RideTrace, from: number): number {
  const { timeS, speedMps, cadenceRpm } = log;
  let halted = false;
  let setOff = -1;
  let inRow = 0;
  for (let i = from; i < timeS.length; i++) {
    const turning = cadenceRpm[i] > 0;
    if ((!turning && !(speedMps[i] >= RIDING_MPS)) || timeS[i] - timeS[i - 1] > PAUSE_S) {
      halted = true;
      setOff = -1;
    }
    if (turning && setOff < 0) setOff = i;
    inRow = drives(log, trace, i) ? inRow + 1 : 0;
    if (inRow === (halted ? DRIVING_RECORDS.afterHalt : DRIVING_RECORDS.rolling))
      return halted ? setOff : i - inRow + 1;
  }
  return timeS.length;
}

/** Whether the legs drive the bike in a record: they work, or they turn on the ratio of a gear and no power meter shows that they do nothing. */
function drives({ speedMps, cadenceRpm, powerW }: RideLog, trace: RideTrace, i: number): boolean {
  if (!(speedMps[i] >= RIDING_MPS && cadenceRpm[i] > 0)) return false;
  if (powerW[i] >= WORKING_W) return true;
  return !(powerW[i] < IDLE_W) && cadenceRpm[i] > PEDALLING_RPM && trace.driving[i] > 0.5 && onSomeGear(trace, i);
}
