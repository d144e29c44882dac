import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import { drivetrainUnknown } from '../../gear-trace/guess/unknown-drivetrain.ts';
import { chance } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { measuredRollout } from './measured-rollout.ts';

/** The bike in one sentence: rings, cogs, actuation, rollout, and whether it was given or guessed, with how likely the guess is right. */
export function bikeWords({
  bike,
  bikeSource,
  bikeNotes,
  bikeCertainty = null,
  rides,
}: Pick<Report, 'bike' | 'bikeSource' | 'bikeNotes'> &
  Partial<Pick<Report, 'bikeCertainty'>> & {
    readonly rides: readonly Pick<Report['rides'][number], 'rolloutMm' | 'leftOut'>[];
  }): string {
  if (drivetrainUnknown(bikeNotes)) return 'Drivetrain not known';
  const rollout = bikeRolloutMm(bike);
  const measured = measuredRollout(ridesThatCount({ rides }));
  const wheel = Number.isNaN(rollout)
    ? `rollout ${measured ? `${measured.mm} mm (${measured.how})` : 'not known'}`
    : `rollout ${Math.round(rollout)} mm${bike.rolloutMm === undefined ? ` (tyre ${bike.tyre})` : ''}`;
  const likely = bikeCertainty === null ? '' : `, right with a likelihood of ${chance(bikeCertainty)}`;
  const source = bikeSource === 'given' ? 'from the bike file' : `guessed from the rides${likely}`;
  return `${bike.chainrings.join('/')} x ${bike.cassette.join('-')}, ${bike.actuation} actuation, ${wheel}; ${source}`;
}
