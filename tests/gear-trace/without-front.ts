import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The same log as if its gear records named cogs only. */
export const withoutFront = ({ gearRecords, ...log }: RideLog): RideLog => {
  const none = new Uint8Array(gearRecords.timeS.length);
  return { ...log, gearRecords: { ...gearRecords, frontTeeth: none, frontPosition: none, frontLost: undefined } };
};
