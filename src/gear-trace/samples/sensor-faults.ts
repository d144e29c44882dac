import type { RideLog } from '../../ride-log/ride-log.ts';
import { PEDALLING_RPM } from './pedalling-rpm.ts';
import { writtenSpeed } from './written-speed.ts';

/** A reading repeated this often while the other sensor's moves by more than the share is held, not measured. */
const HELD_SPEED = { records: 5, otherMoves: 0.04 } as const;
/** Cadence is written in whole turns a minute, and stays on one for some seconds by itself. */
const HELD_CADENCE = { records: 8, otherMoves: 0.06 } as const;
/** Records further apart than this have a pause between them: the same reading on both sides was measured twice. */
const PAUSE_S = 10;
/** Fewer steps than this lead to the next value of a column. */
const NEXT_STEP = 1.5;
/** No rider gains this much in a second: before such a jump the speed had gone astray (lost satellites, a tunnel). */
const JUMP_MPS = 2.5;
const JUMP_WITHIN_S = 1.6;
/** Back at this share of what it jumped to, the speed had not gone astray yet. */
const BACK_AT = 0.95;
/** Slower than this a bike may stand. */
const MOVING_MPS = 1;
/** A bike that goes no faster, with still cranks, stands: that is no speed gone astray. */
const STANDS_MPS = 0.3;
/** Nobody is lost to the satellites for longer on a road that is ridden (assumption of ours). */
const ASTRAY_S = 120;
/** A jump back stays: the speed of the next records is no lower than this share of it. A single reading that leaps is no jump back. */
const STAYS = { records: 3, share: 0.8 } as const;

/**
 * Marks records whose speed or cadence cannot be trusted: a value that a recorder holds while the sensor is silent, and a speed
 * that has drifted until it jumps back. 1 = not to be trusted. Constant values while both stand still are no fault.
 */
export function sensorFaults(log: RideLog): Uint8Array {
  const faulty = new Uint8Array(log.timeS.length);
  const { timeS, speedMps, cadenceRpm } = log;
  const { stepMps, repeatedFor } = writtenSpeed(timeS, speedMps);
  const speedLimit = { ...HELD_SPEED, records: Math.max(HELD_SPEED.records, repeatedFor), step: stepMps };
  markHeld({ timeS, held: speedMps, other: cadenceRpm, above: MOVING_MPS }, speedLimit, faulty);
  markHeld(
    { timeS, held: cadenceRpm, other: speedMps, above: PEDALLING_RPM },
    { ...HELD_CADENCE, step: Number.NaN },
    faulty,
  );
  markAstray(log, faulty);
  return faulty;
}

interface HeldColumn {
  readonly timeS: Float64Array;
  readonly held: Float64Array;
  readonly other: Float64Array;
  readonly above: number;
}

interface HeldLimit {
  readonly records: number;
  readonly otherMoves: number;
  /** The step in which the held column is written; NaN where that says nothing. */
  readonly step: number;
}

function markHeld(column: HeldColumn, limit: HeldLimit, faulty: Uint8Array): void {
  const { timeS, held, other, above } = column;
  for (let start = 0; start < held.length; ) {
    let end = start + 1;
    while (end < held.length && held[end] === held[start] && timeS[end] - timeS[end - 1] <= PAUSE_S) end++;
    if (end - start >= limit.records && held[start] > above && !movesOn(column, end, limit.step)) {
      let low = Number.POSITIVE_INFINITY;
      let high = 0;
      for (let i = start; i < end; i++) {
        if (!(other[i] > 0)) continue;
        low = Math.min(low, other[i]);
        high = Math.max(high, other[i]);
      }
      if (high > low * (1 + limit.otherMoves)) faulty.fill(1, start + 1, end);
    }
    start = end;
  }
}

/**
 * Whether a value that was repeated is followed by its neighbour: a sensor that was silent comes back wherever the bike has got to meanwhile,
 * and where that is as near its value was none the worse.
 */
const movesOn = ({ timeS, held }: HeldColumn, end: number, step: number): boolean =>
  timeS[end] - timeS[end - 1] <= PAUSE_S && Math.abs(held[end] - held[end - 1]) < NEXT_STEP * step;

function markAstray({ timeS, speedMps, cadenceRpm }: RideLog, faulty: Uint8Array): void {
  for (let i = 1; i < timeS.length; i++) {
    const before = speedMps[i - 1];
    if (!(speedMps[i] - before > JUMP_MPS) || timeS[i] - timeS[i - 1] > JUMP_WITHIN_S || !(before > MOVING_MPS))
      continue;
    if (speedMps.subarray(i, i + STAYS.records).some((next) => next < STAYS.share * speedMps[i])) continue;
    // back to where the speed last was what it jumped to, or to a pause or a stand
    for (let k = i - 1; k >= 0 && speedMps[k] < BACK_AT * speedMps[i]; k--) {
      if (timeS[i] - timeS[k] > ASTRAY_S || timeS[k + 1] - timeS[k] > PAUSE_S) break;
      if (speedMps[k] < STANDS_MPS && cadenceRpm[k] === 0) break;
      faulty[k] = 1;
    }
  }
}
