import { hasClock } from './has-clock.ts';
import type { RideLog } from './ride-log.ts';
import { sameShiftsOffsetS } from './same-shifts.ts';

/** Fewer records than this may be alike by chance, as those of a bike that stands are. */
const LEAST_RECORDS = 60;
/** This share of the shorter ride's records must stand in the longer one: a copy may have been cut, sorted or mended. */
const SAME_SHARE = 0.95;
/** Another format may have rounded the speed by so much, m/s. */
const ROUNDED_MPS = 0.02;

/** Clocks of two recorders differ by the time zone at most, s. */
export const CLOCKS_APART_S = 14 * 3600;

/**
 * Whether `part` is a stretch of the same ride as `whole`: the same seconds of the calendar with the same speed and cadence, or the same
 * changes of gear at the same times but for what the clocks of two recorders differ by. False for the longer of the two, and for one that names
 * gears which the other does not: a copy may have lost them, or their teeth.
 */
export function isPartOfRide(part: RideLog, whole: RideLog): boolean {
  if (part.timeS.length > whole.timeS.length || part.timeS.length < LEAST_RECORDS) return false;
  if (namedGears(part) > namedGears(whole)) return false;
  return isSameRecording(part, whole) || isSecondRecorder(part, whole);
}

/** Whether two recorders wrote down the same shifts; a log without a clock may be of any time. */
function isSecondRecorder(part: RideLog, whole: RideLog): boolean {
  const dated = hasClock(part.startMs) && hasClock(whole.startMs);
  const apartS = (part.startMs - whole.startMs) / 1000;
  if (dated && Math.abs(apartS) > CLOCKS_APART_S + whole.timeS[whole.timeS.length - 1]) return false;
  const offsetS = sameShiftsOffsetS(part, whole);
  return offsetS !== null && (!dated || Math.abs(apartS - offsetS) <= CLOCKS_APART_S);
}

/** Whether the records of one stand in the other, second for second of the calendar. */
function isSameRecording(part: RideLog, whole: RideLog): boolean {
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
