import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The same log as if no gear had been recorded. */
export const withoutRecords = (log: RideLog): RideLog => ({
  ...log,
  gearRecords: {
    timeS: new Float64Array(),
    rearTeeth: new Uint8Array(),
    frontTeeth: new Uint8Array(),
    rearPosition: new Uint8Array(),
    frontPosition: new Uint8Array(),
    wholeSeconds: true,
  },
});
