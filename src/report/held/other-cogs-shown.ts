import type { Bike } from '../../drivetrain/bike.ts';
import { recordedTeethDiffer } from '../../gear-trace/disagreement/gear-warnings.ts';
import { OTHERS } from '../../gear-trace/disagreement/other-steps.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { FITS_BETTER } from './cog-off.ts';

/**
 * How far the gears of a ride lie beside the teeth of the bike's cogs, as a share, where neither its records nor its speed and cadence are of those:
 * the records name others, the ride shows others, and not for every cog which: those it is judged by as written, and sound shifts look late, missed
 * or overshot. Null where the gears fit, where they do a cog from the one asked for, and where no cog shows other teeth: then it may be the rings
 * alone, which are measured.
 */
export function otherCogsShown(
  { warnings, measured, cogsOff = [] }: Pick<RideReport, 'warnings' | 'measured' | 'cogsOff'>,
  { cassette }: Pick<Bike, 'cassette'>,
): number | null {
  const asked = cogsOff.find(({ cogs }) => cogs === 0);
  if (!asked || asked.misfit < OTHERS) return null;
  if (!warnings.some(({ code }) => code === recordedTeethDiffer)) return null;
  if (cogsOff.some(({ misfit }) => misfit < FITS_BETTER * asked.misfit)) return null;
  const showsOthers = measured.cassette.some((teeth, cog) => teeth !== null && teeth !== cassette[cog]);
  return showsOthers && measured.cassette.includes(null) ? asked.misfit : null;
}
