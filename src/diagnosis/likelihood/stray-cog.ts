import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { evidenceWeights } from '../assumptions.ts';
import { cogCell } from '../evidence/evidence-table.ts';

/** Readings of a bike beside its cause: no cog is bad by itself, or one of the inner cogs is. Those at the ends are left out: their trouble is that of the limits. */
export const strayReadings = (cassetteLength: number): number => cassetteLength - 1;

/** Rows (of the cells that were ridden) that each inner cog spoils if it is bad by itself: onto it both ways, and past it or off it onto its neighbours. */
export type CogRows = readonly Int32Array[];

/** @param cells cell (cog and direction) of each row */
export function innerCogRows(cells: readonly number[], cassetteLength: number): CogRows {
  const rowOf = new Map(cells.map((cell, row) => [cell, row]));
  return Array.from({ length: cassetteLength - 2 }, (_, i) => {
    const cog = i + 1;
    const spoiled = [
      cogCell(cassetteLength, true, cog),
      cogCell(cassetteLength, false, cog),
      cogCell(cassetteLength, true, cog + 1),
      cogCell(cassetteLength, false, cog - 1),
    ];
    return Int32Array.from(spoiled.map((cell) => rowOf.get(cell)).filter((row) => row !== undefined));
  });
}

/**
 * Log likelihood of a segment in each reading, written to `into` from `at` on: the cells about a bad cog (bent or worn teeth, a wrong spacer) follow no model.
 *
 * @param log with no bad cog
 * @param gained by row: log likelihood of the cell if it follows no model, less that if it may or may not
 */
export function fillStrayReadings(
  log: number,
  rows: CogRows,
  gained: Float64Array,
  into: Float64Array,
  at: number,
): void {
  into[at] = log;
  rows.forEach((cog, i) => {
    let sum = log;
    for (const row of cog) sum += gained[row];
    into[at + 1 + i] = sum;
  });
}

/** Log likelihood of all segments together, from that in each reading: a bad cog is bad from the first ride to the last. */
export function overStrayReadings(logs: Float64Array): number {
  const { strayCog } = evidenceWeights;
  const cogs = logs.length - 1;
  return logSumExp(logs.map((log, i) => log + Math.log(i === 0 ? 1 - strayCog : strayCog / cogs)));
}
