import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** Speed that is derived from positions may change by as much as rounding a position does, m/s. */
const DERIVED_SPEED_TOLERANCE = 0.1;

const near = (a: ArrayLike<number>, b: ArrayLike<number>, tolerance: number): boolean => {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!(Object.is(a[i], b[i]) || Math.abs(a[i] - b[i]) <= tolerance)) return false;
  return true;
};

/** True where two logs tell the same of gears: the same columns, gear records and source of speed. Warnings may differ. */
export function sameRide(a: RideLog, b: RideLog): boolean {
  const speedTolerance = a.speedSource === 'positions' ? DERIVED_SPEED_TOLERANCE : 0;
  return (
    a.startMs === b.startMs &&
    a.sport === b.sport &&
    a.speedSource === b.speedSource &&
    near(a.timeS, b.timeS, 0) &&
    near(a.speedMps, b.speedMps, speedTolerance) &&
    near(a.cadenceRpm, b.cadenceRpm, 0) &&
    near(a.powerW, b.powerW, 0) &&
    near(a.distanceM, b.distanceM, 0) &&
    near(a.gearRecords.timeS, b.gearRecords.timeS, 0) &&
    near(a.gearRecords.rearTeeth, b.gearRecords.rearTeeth, 0) &&
    near(a.gearRecords.frontTeeth, b.gearRecords.frontTeeth, 0) &&
    near(a.gearRecords.rearPosition, b.gearRecords.rearPosition, 0) &&
    near(a.gearRecords.frontPosition, b.gearRecords.frontPosition, 0) &&
    JSON.stringify(a.pauses ?? []) === JSON.stringify(b.pauses ?? [])
  );
}
