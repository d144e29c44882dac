import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The same log as if its recorder wrote teeth only, with some cogs under another count: a record that repeats the one before is none. */
export function namedAs({ gearRecords, ...log }: RideLog, as: Readonly<Record<number, number>> = {}): RideLog {
  const rear = Array.from(gearRecords.rearTeeth, (teeth) => as[teeth] ?? teeth);
  const kept = [...rear.keys()].filter((i) => i === 0 || rear[i] !== rear[i - 1]);
  const none = new Uint8Array(kept.length);
  return {
    ...log,
    gearRecords: {
      timeS: Float64Array.from(kept, (i) => gearRecords.timeS[i]),
      rearTeeth: Uint8Array.from(kept, (i) => rear[i]),
      frontTeeth: Uint8Array.from(kept, (i) => gearRecords.frontTeeth[i]),
      rearPosition: none,
      frontPosition: none,
      wholeSeconds: gearRecords.wholeSeconds,
    },
  };
}
