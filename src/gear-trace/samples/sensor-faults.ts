import type { RideLog } from '../../ride-log/ride-log.ts';

/** A reading repeated this often while the other sensor's moves by more than the share is held, not measured. */
const HELD_SPEED = { records: 5, otherMoves: 0.04 } as const;
const HELD_CADENCE = { records: 8, otherMoves: 0.06 } as const;
/** No rider gains this much in a second: before such a jump the speed had gone astray (lost satellites, a tunnel). */
const JUMP_MPS = 2.5;
const JUMP_WITHIN_S = 1.6;
const ASTRAY_S = 25;

/**
 * Marks records whose speed or cadence cannot be trusted: a value that a recorder holds while the sensor is silent, and a speed
 * that has drifted until it jumps back. 1 = not to be trusted. Constant values while both stand still are no fault.
 */
export function sensorFaults(log: RideLog): Uint8Array {
  const faulty = new Uint8Array(log.timeS.length);
  markHeld(log.speedMps, log.cadenceRpm, 1, HELD_SPEED, faulty);
  markHeld(log.cadenceRpm, log.speedMps, 30, HELD_CADENCE, faulty);
  markAstray(log, faulty);
  return faulty;
}

function markHeld(
  held: Float64Array,
  other: Float64Array,
  above: number,
  limit: { readonly records: number; readonly otherMoves: number },
  faulty: Uint8Array,
): void {
  for (let start = 0; start < held.length; ) {
    let end = start + 1;
    while (end < held.length && held[end] === held[start]) end++;
    if (end - start >= limit.records && held[start] > above) {
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

function markAstray({ timeS, speedMps }: RideLog, faulty: Uint8Array): void {
  for (let i = 1; i < timeS.length; i++) {
    const before = speedMps[i - 1];
    if (!(speedMps[i] - before > JUMP_MPS) || timeS[i] - timeS[i - 1] > JUMP_WITHIN_S || !(before > 1)) continue;
    // back to where the speed last was what it jumped to, or as long as it was falling
    for (let k = i - 1; k >= 0 && timeS[i] - timeS[k] < ASTRAY_S && speedMps[k] < 0.95 * speedMps[i]; k--)
      faulty[k] = 1;
  }
}
