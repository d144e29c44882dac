import { USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import { isPossibleRollout } from '../../drivetrain/rollout-limits.ts';
import type { Warning } from '../../errors/warning.ts';

/** Code of the warning that the rollout is another one than the bike file's. */
export const rolloutDiffers = 'rollout-differs';
/** Code of the warning that the speed is not in m/s. */
export const speedUnitDoubtful = 'speed-unit-doubtful';

/** A rollout this far (log) from the written one is another: tyre pressure and load explain less. */
const ROLLOUT_TOLERANCE = 0.03;
/** Units that speed is often in where m/s are meant: how many of them make 1 m/s. */
const UNITS = [
  { unit: 'km/h', perMps: 3.6 },
  { unit: 'miles an hour', perMps: 2.237 },
];
/** How far (log) a rollout may be from so many times the written one, or that of a usual wheel. */
const NEAR_WRITTEN = 0.06;
const NEAR_USUAL = 0.2;

/**
 * Whether the speed of a ride is in m/s, as far as its rollout tells: not where that is one that no wheel has, or the written one times
 * the factor between two units of speed. True where the rollout is not known.
 */
export const isSpeedInMps = (rolloutMm: number, writtenMm: number): boolean =>
  Number.isNaN(rolloutMm) || (isPossibleRollout(rolloutMm) && unitOf(rolloutMm, writtenMm) === undefined);

/**
 * Says where the rollout of a ride is not the one written, or none at all; null where it is as it should be.
 *
 * @param unitMayBeAnother false where the format of the ride fixes the unit of speed
 */
export function rolloutWarning(rolloutMm: number, writtenMm: number, unitMayBeAnother = true): Warning | null {
  const shows = `The ride shows a rollout of ${rolloutMm.toFixed(0)} mm`;
  if (!isSpeedInMps(rolloutMm, writtenMm)) {
    const told = Number.isNaN(writtenMm) ? 'which no wheel has' : `the bike file says ${writtenMm.toFixed(0)} mm`;
    if (!unitMayBeAnother)
      return {
        code: rolloutDiffers,
        message: `${shows} with the given teeth, ${told}: check wheel size, rings and cogs, and whether the ride is this bike's.`,
      };
    const unit = unitOf(rolloutMm, writtenMm);
    const mend = unit
      ? `Its speed is probably in ${unit.unit}, not in m/s: divide it by ${unit.perMps}`
      : 'Its speed is probably not in m/s: bring it to metres a second';
    return { code: speedUnitDoubtful, message: `${shows}, ${told}. ${mend} and read the ride again.` };
  }
  if (!(Math.abs(Math.log(rolloutMm / writtenMm)) > ROLLOUT_TOLERANCE)) return null;
  return {
    code: rolloutDiffers,
    message: `${shows} with the given teeth, the bike file says ${writtenMm.toFixed(0)} mm: check wheel size, chainring and the device's wheel setting.`,
  };
}

function unitOf(rolloutMm: number, writtenMm: number): (typeof UNITS)[number] | undefined {
  const written = !Number.isNaN(writtenMm);
  if (!written && isPossibleRollout(rolloutMm)) return undefined;
  const [wheelMm, near] = written ? [writtenMm, NEAR_WRITTEN] : [1000 * USUAL_ROLLOUT_M, NEAR_USUAL];
  return UNITS.find(({ perMps }) => Math.abs(Math.log(rolloutMm / wheelMm / perMps)) < near);
}
