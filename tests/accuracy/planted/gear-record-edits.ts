import type { GearRecords } from '../../../src/ride-log/ride-log.ts';

/** A gear record to be put in: the gear of record `like`, but for the cog. */
export interface AddedRecord {
  readonly timeS: number;
  readonly like: number;
  readonly rearPosition: number;
  readonly rearTeeth: number;
}

/** The gear records with some added, by time. */
export function addRecords(records: GearRecords, added: readonly AddedRecord[]): GearRecords {
  const rows = [
    ...Array.from(records.timeS, (timeS, i) => ({
      timeS,
      like: i,
      rearPosition: records.rearPosition[i],
      rearTeeth: records.rearTeeth[i],
    })),
    ...added,
  ].sort((a, b) => a.timeS - b.timeS);
  return {
    timeS: Float64Array.from(rows, (row) => row.timeS),
    rearTeeth: Uint8Array.from(rows, (row) => row.rearTeeth),
    rearPosition: Uint8Array.from(rows, (row) => row.rearPosition),
    frontTeeth: Uint8Array.from(rows, (row) => records.frontTeeth[row.like]),
    frontPosition: Uint8Array.from(rows, (row) => records.frontPosition[row.like]),
    wholeSeconds: records.wholeSeconds,
  };
}

/** The gear records without those of the given indices. */
export function dropRecords(records: GearRecords, dropped: ReadonlySet<number>): GearRecords {
  const keep = <T extends Float64Array | Uint8Array>(column: T): T =>
    column.filter((_, i) => !dropped.has(i)) as unknown as T;
  return {
    timeS: keep(records.timeS),
    rearTeeth: keep(records.rearTeeth),
    rearPosition: keep(records.rearPosition),
    frontTeeth: keep(records.frontTeeth),
    frontPosition: keep(records.frontPosition),
    wholeSeconds: records.wholeSeconds,
  };
}

/** The teeth recorded most often at each rear position that was used at least 20 times. */
export function usualTeeth({ rearPosition, rearTeeth }: GearRecords): Map<number, number> {
  const counts = new Map<number, Map<number, number>>();
  rearPosition.forEach((position, i) => {
    if (position === 0) return;
    const teeth = counts.get(position) ?? new Map<number, number>();
    counts.set(position, teeth.set(rearTeeth[i], (teeth.get(rearTeeth[i]) ?? 0) + 1));
  });
  const usual = new Map<number, number>();
  for (const [position, teeth] of counts) {
    const [commonest] = [...teeth].sort((a, b) => b[1] - a[1]);
    if ([...teeth.values()].reduce((a, b) => a + b, 0) >= 20) usual.set(position, commonest[0]);
  }
  return usual;
}
