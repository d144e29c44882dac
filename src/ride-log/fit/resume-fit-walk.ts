import type { FitDefinition } from './fit-definition.ts';
import { FIT_NO_TIME } from './fit-wanted.ts';

/** How far behind a broken record whole ones are looked for. */
export const REACH = 4096;
/** So many time stamps, in records one behind another, must agree before they are believed. */
const AGREEING_TIMES = 4;
/** Records with and without time stamps that are tried for them. */
const MOST_TRIED = 16;
const AGREEMENT_S = 3600;
/** FIT times below this count from a recorder's start, not from 1989; zeros would agree too easily. */
const LEAST_TIME = 0x10000000;

/**
 * Where whole records begin again behind a broken one at `broken`; -1 where none do. A place is believed if the records that stand
 * there one behind another, by the definitions known so far, carry times that rise and lie within an hour: four 32-bit numbers
 * do not agree so by chance.
 */
export function resumeFitWalk(
  bytes: Uint8Array,
  view: DataView,
  broken: number,
  end: number,
  definitions: readonly (FitDefinition | undefined)[],
): number {
  const limit = Math.min(broken + REACH, end);
  for (let at = broken + 1; at < limit; at++) if (areAgreeingRecords(bytes, view, at, end, definitions)) return at;
  return -1;
}

/** Whether whole records stand at `start`: see `resumeFitWalk`. */
export function areAgreeingRecords(
  bytes: Uint8Array,
  view: DataView,
  start: number,
  end: number,
  definitions: readonly (FitDefinition | undefined)[],
): boolean {
  let at = start;
  let first = FIT_NO_TIME;
  let last = 0;
  let agreeing = 0;
  for (let tried = 0; tried < MOST_TRIED && at < end; tried++) {
    const header = bytes[at];
    const definition = header < 0x10 ? definitions[header] : undefined;
    if (!definition || at + 1 + definition.size > end) return false;
    if (definition.timeOffset >= 0) {
      const time = view.getUint32(at + 1 + definition.timeOffset, definition.littleEndian);
      if (first === FIT_NO_TIME) first = time;
      if (time === FIT_NO_TIME || time < LEAST_TIME || time < last || time - first > AGREEMENT_S) return false;
      last = time;
      if (++agreeing === AGREEING_TIMES) return true;
    }
    at += 1 + definition.size;
  }
  return false;
}
