import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import { drivetrainUnknown } from '../../gear-trace/guess/unknown-drivetrain.ts';
import { chance } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';

/** The bike in one sentence: rings, cogs, actuation, rollout, and whether it was given or guessed, with how likely the guess is right. */
export function bikeWords({
  bike,
  bikeSource,
  bikeNotes,
  bikeCertainty = null,
  rides,
}: Pick<Report, 'bike' | 'bikeSource' | 'bikeNotes' | 'rides'> & Partial<Pick<Report, 'bikeCertainty'>>): string {
  if (drivetrainUnknown(bikeNotes)) return 'Drivetrain not known';
  const rollout = bikeRolloutMm(bike);
  const measured = rides.some(({ rolloutMm }) => rolloutMm !== null);
  const wheel = Number.isNaN(rollout)
    ? `rollout ${measured ? 'measured from the rides' : 'not known'}`
    : `rollout ${Math.round(rollout)} mm${bike.rolloutMm === undefined ? ` (tyre ${bike.tyre})` : ''}`;
  const likely = bikeCertainty === null ? '' : `, right with a likelihood of ${chance(bikeCertainty)}`;
  const source = bikeSource === 'given' ? 'from the bike file' : `guessed from the rides${likely}`;
  return `${bike.chainrings.join('/')} x ${bike.cassette.join('-')}, ${bike.actuation} actuation, ${wheel}; ${source}`;
}
