import type { Bike } from '../../drivetrain/bike.ts';
import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import type { Report } from '../report-schema.ts';
import type { RideReport } from '../ride-report-schema.ts';

/** The teeth a cog off fit instead where they do by less than this share of how far those asked for are off. An assumption of ours. */
export const FITS_BETTER = 0.5;
/** They must fit within this share of the development. An assumption of ours. */
const FITS = 0.012;
/** How near the rollout must come to the bike's own then, and from where on that of the teeth asked for is another one: tyres and calibration differ by less. */
const SAME_WHEEL = 0.025;
const ANOTHER_WHEEL = 0.05;

/** A ride on which the chain stood a cog from the one asked for. */
export interface CogOff {
  /** 1: on the next larger cog, -1: on the next smaller. */
  readonly cogs: -1 | 1;
  /** Rollout that fits then, and that of the teeth asked for, mm. */
  readonly rolloutMm: number;
  readonly askedRolloutMm: number;
}

type Fit = NonNullable<RideReport['cogsOff']>[number];

/**
 * Tells for each ride of a bike whether the chain stood a cog from the one asked for, all ride long: with the teeth as asked for the wheel
 * would have to be another one from one day to the next, and a cog off the bike's own wheel fits, and fits the uneven steps of the cassette better.
 */
export function cogOff(
  rides: readonly Pick<RideReport, 'cogsOff'>[],
  bike: Bike,
  bikeSource: Report['bikeSource'],
): (CogOff | null)[] {
  const fits = rides.map(({ cogsOff = [] }) => cogsOff);
  const asAsked = fits.flatMap((all) => {
    const asked = askedFor(all);
    return asked && all.every(({ misfit }) => misfit >= asked.misfit) ? [asked.rolloutMm] : [];
  });
  const written = bikeSource === 'given' ? bikeRolloutMm(bike) : Number.NaN;
  const wheelsMm = [written, ...asAsked].filter((rollout) => !Number.isNaN(rollout));
  return fits.map((all) => offOf(all, wheelsMm));
}

const askedFor = (fits: readonly Fit[]): Fit | undefined => fits.find(({ cogs }) => cogs === 0);

function offOf(fits: readonly Fit[], wheelsMm: readonly number[]): CogOff | null {
  const asked = askedFor(fits);
  if (!asked) return null;
  const apart = (a: number, b: number): number => Math.abs(Math.log(a / b));
  for (const { cogs, rolloutMm, misfit } of fits) {
    if (cogs === 0 || misfit > FITS || misfit > FITS_BETTER * asked.misfit) continue;
    const itsWheel = wheelsMm.some(
      (wheel) => apart(rolloutMm, wheel) < SAME_WHEEL && apart(asked.rolloutMm, wheel) > ANOTHER_WHEEL,
    );
    if (itsWheel) return { cogs, rolloutMm, askedRolloutMm: asked.rolloutMm };
  }
  return null;
}

/** On which side of the cog asked for the chain stood. */
export const sizeWord = (cogs: CogOff['cogs']): 'larger' | 'smaller' => (cogs > 0 ? 'larger' : 'smaller');
