import { FileError } from '../../src/errors/file-error.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** Codes with which a ride may be refused. */
const REFUSALS = [
  'bad-csv',
  'bad-xml',
  'empty',
  'encoding',
  'no-records',
  'no-time',
  'not-cycling',
  'packed',
  'too-many-records',
  'unknown-format',
];

/** Reads `bytes`; returns the refusal's code, or 'a ride' after checking that the ride is sound. Throws on anything else. */
export function soundOutcome(bytes: Uint8Array, name = 'fuzzed'): string {
  let ride: RideLog;
  try {
    ride = readRideLog(name, bytes);
  } catch (error) {
    if (!(error instanceof FileError) || !REFUSALS.includes(error.code)) throw error;
    if (!error.message.startsWith(`${name}: `)) throw new Error(`message does not name the file: ${error.message}`);
    return error.code;
  }
  const fault = unsound(ride);
  if (fault) throw new Error(`unsound ride: ${fault}`);
  return 'a ride';
}

function unsound(ride: RideLog): string | null {
  const { timeS, speedMps, cadenceRpm, powerW, distanceM, gearRecords } = ride;
  const { length } = timeS;
  if (length === 0) return 'no records';
  if (timeS[0] !== 0 || !Number.isFinite(ride.startMs)) return 'start';
  for (let i = 0; i < length; i++)
    if (!Number.isFinite(timeS[i]) || (i > 0 && timeS[i] <= timeS[i - 1])) return 'times';
  for (const column of [speedMps, cadenceRpm, powerW, distanceM]) if (column.length !== length) return 'lengths';
  for (let i = 0; i < length; i++) {
    if (speedMps[i] < 0 || speedMps[i] > 40) return `speed ${speedMps[i]}`;
    if (cadenceRpm[i] < 0 || cadenceRpm[i] > 230) return `cadence ${cadenceRpm[i]}`;
    if (powerW[i] < 0 || powerW[i] > 3000) return `power ${powerW[i]}`;
    if (distanceM[i] < 0 || Math.abs(distanceM[i]) === Number.POSITIVE_INFINITY) return `distance ${distanceM[i]}`;
  }
  const times = gearRecords.timeS;
  if (times.some((time, i) => !Number.isFinite(time) || (i > 0 && time < times[i - 1]))) return 'gear times';
  for (const column of ['rearTeeth', 'frontTeeth', 'rearPosition', 'frontPosition'] as const)
    if (gearRecords[column].length !== times.length || gearRecords[column].includes(255)) return `gear ${column}`;
  const pauses = ride.pauses ?? [];
  if (pauses.some(({ startS, endS }, i) => !(endS > startS) || (i > 0 && startS < pauses[i - 1].endS))) return 'pauses';
  if (ride.warnings.some(({ code, message }) => !/^[a-z-]+$/.test(code) || message.length > 600)) return 'warnings';
  if (new Set(ride.warnings.map(({ code }) => code)).size !== ride.warnings.length) return 'a warning twice';
  return null;
}
