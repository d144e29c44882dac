import { hasClock } from './has-clock.ts';
import type { RideLog } from './ride-log.ts';

/** Fewer records than this may be alike by chance, as those of a bike that stands are. */
const LEAST_RECORDS = 60;
/** This share of the shorter ride's records must stand in the longer one: a copy may have been cut, sorted or mended. */
const SAME_SHARE = 0.95;
/** Another format may have rounded the speed by so much, m/s. */
const ROUNDED_MPS = 0.02;

/**
 * Whether `part` is a stretch of the same recording as `whole`: the same seconds of the calendar with the same speed and cadence. False
 * without a clock, for the longer of the two, and for one that names gears which the other does not: a copy may have lost them, or their teeth.
 */
export function isPartOfRide(part: RideLog, whole: RideLog): boolean {
  if (part.timeS.length > whole.timeS.length || part.timeS.length < LEAST_RECORDS) return false;
  if (namedGears(part) > namedGears(whole)) return false;
  if (!hasClock(part.startMs) || !hasClock(whole.startMs)) return false;
  if (endMs(part) < whole.startMs || endMs(whole) < part.startMs) return false;
  let same = 0;
  let k = 0;
  for (let i = 0; i < part.timeS.length; i++) {
    const ms = msAt(part, i);
    while (k < whole.timeS.length && msAt(whole, k) < ms) k++;
    if (k === whole.timeS.length) break;
    if (msAt(whole, k) === ms && alike(part, i, whole, k)) same++;
  }
  return same >= SAME_SHARE * part.timeS.length;
}

/** How often the gear records name another cog or ring than before: a copy that lost some names the same one again, which tells no more. */
function namedGears({ gearRecords: records }: RideLog): number {
  const { rearTeeth, rearPosition, frontTeeth, frontPosition } = records;
  return namesOf(rearTeeth, rearPosition) + namesOf(frontTeeth, frontPosition);
}

function namesOf(teeth: Uint8Array, position: Uint8Array): number {
  let names = 0;
  let last = -1;
  teeth.forEach((_, k) => {
    if (teeth[k] === 0 && position[k] === 0) return;
    if (last < 0 || teeth[k] !== teeth[last] || position[k] !== position[last]) names++;
    last = k;
  });
  return names;
}

const msAt = (log: RideLog, i: number): number => log.startMs + Math.round(1000 * log.timeS[i]);
const endMs = (log: RideLog): number => msAt(log, log.timeS.length - 1);
const alike = (a: RideLog, i: number, b: RideLog, k: number): boolean =>
  near(a.speedMps[i], b.speedMps[k], ROUNDED_MPS) && near(a.cadenceRpm[i], b.cadenceRpm[k], 0);

const near = (a: number, b: number, apart: number): boolean =>
  Number.isNaN(a) || Number.isNaN(b) ? Number.isNaN(a) === Number.isNaN(b) : Math.abs(a - b) <= apart;
