import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import type { Report } from '../report-schema.ts';

/** The bike in one sentence: rings, cogs, actuation, rollout, and whether it was given or guessed. */
export function bikeWords({ bike, bikeSource }: Pick<Report, 'bike' | 'bikeSource'>): string {
  const rollout = bikeRolloutMm(bike);
  const wheel = Number.isNaN(rollout)
    ? 'rollout measured from the rides'
    : `rollout ${Math.round(rollout)} mm${bike.rolloutMm === undefined ? ` (tyre ${bike.tyre})` : ''}`;
  const source = bikeSource === 'given' ? 'from the bike file' : 'guessed from the rides';
  return `${bike.chainrings.join('/')} x ${bike.cassette.join('-')}, ${bike.actuation} actuation, ${wheel}; ${source}`;
}
