import type { LostDrive } from './lost-drive.ts';

/**
 * The cog the chain drove on at each record, as an index into the cassette; -1 where it is not known, and while drive was lost.
 *
 * @param traced the cog that the gear trace names at each record: a trace of ratios names one also while the legs spin against nothing
 */
export function chainCogs(traced: Int8Array, lostDrive: readonly LostDrive[]): Int8Array {
  const cogs = traced.slice();
  for (const { start, end } of lostDrive) cogs.fill(-1, start, end);
  return cogs;
}
