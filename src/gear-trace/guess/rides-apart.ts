import type { Bike } from '../../drivetrain/bike.ts';
import { developmentM } from '../../drivetrain/development.ts';
import type { Warning } from '../../errors/warning.ts';
import { counted } from '../../numeric/counted.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { ladderPeaks, type Rung } from '../ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../ladder/sharpest-histogram.ts';
import { pedallingSamples } from '../samples/pedalling-samples.ts';

/** Limits of ours. In the test rides, rides of one bike reach 0.98 of steady time on its gears, those of other bikes 0.44 at most. */
const rule = {
  /** Share of recorded sizes, of the ride that names fewer, which both must name. */
  teeth: 0.8,
  /** Rungs that a ride without gear records must show before it tells anything. */
  rungs: 5,
  /** Share of its steady seconds that must lie in a gear of the bike. */
  steady: 0.6,
  /** How near a rung must lie to a gear's development, as a share of it. */
  near: 0.01,
  /** Rides of one bike differ in rollout by tyre pressure, load and calibration: a share either way, and the step it is tried in. */
  rollout: 0.02,
  step: 0.0025,
};

/** A drivetrain that was guessed and the ride that shows it. `rolloutMm` is NaN where it is not known. */
export interface GuessedFrom {
  readonly bike: Bike;
  readonly rolloutMm: number;
  readonly ride: RideLog;
}

/** The rides that do not look like rides of the bike that the guess is of: other teeth recorded, or another ladder of developments. */
export const ridesApart = (logs: readonly RideLog[], guess: GuessedFrom): RideLog[] =>
  logs.filter((log) => {
    if (log === guess.ride) return false;
    if (namesTeeth(log) && namesTeeth(guess.ride)) return !sharesTeeth(log, guess.ride);
    if (log.speedSource === 'computed') return false;
    const sharpest = sharpestHistogram(log, pedallingSamples(log));
    return sharpest.shows && !onItsGears(ladderPeaks(sharpest.histogram), guess);
  });

/** So many rides are named. */
const MOST_NAMED = 3;

/** Says that rides do not go together. */
export function apartNote(apart: readonly RideLog[], { ride }: GuessedFrom): Warning {
  const names = apart.slice(0, MOST_NAMED).map(({ file }) => file);
  const more = apart.length - names.length;
  return {
    code: 'rides-apart',
    message: `These rides do not look like those of one bike: the gears of ${names.join(', ')}${more > 0 ? ` and ${counted(more, 'other')}` : ''} are not those of ${ride.file}. Give the rides of each bike by themselves.`,
  };
}

const named = (teeth: Uint8Array): Set<number> => new Set([...teeth].filter((size) => size > 0));
const namesTeeth = ({ gearRecords }: RideLog): boolean => named(gearRecords.rearTeeth).size > 1;

function sharesTeeth(a: RideLog, b: RideLog): boolean {
  return (['rearTeeth', 'frontTeeth'] as const).every((end) => {
    const [fewer, more] = [named(a.gearRecords[end]), named(b.gearRecords[end])].sort((x, y) => x.size - y.size);
    return [...fewer].filter((size) => more.has(size)).length >= rule.teeth * fewer.size;
  });
}

function onItsGears(rungs: readonly Rung[], { bike, rolloutMm }: GuessedFrom): boolean {
  if (rungs.length < rule.rungs || Number.isNaN(rolloutMm)) return true;
  const gears = bike.chainrings.flatMap((ring) =>
    bike.cassette.map((cog) => Math.log(developmentM(rolloutMm, ring, cog))),
  );
  const total = rungs.reduce((sum, { seconds }) => sum + seconds, 0);
  for (let off = -rule.rollout; off <= rule.rollout; off += rule.step) {
    const inGear = rungs
      .filter(({ logDevelopment }) => gears.some((gear) => Math.abs(gear + off - logDevelopment) <= rule.near))
      .reduce((sum, { seconds }) => sum + seconds, 0);
    if (inGear >= rule.steady * total) return true;
  }
  return false;
}
