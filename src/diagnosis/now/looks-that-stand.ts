import type { Adjustment } from '../../adjustments/adjustment.ts';
import { type CassetteEnd, cassetteEnds } from '../../adjustments/end-cog-count.ts';
import type { Look } from '../../adjustments/looks.ts';
import { sameSitting } from '../../adjustments/same-sitting.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { limitAt } from '../cassette-ends.ts';
import { overtakes } from '../looked-for.ts';
import { lastLostMs, type RideLosses } from './last-lost.ts';

/** What was done, as far as it tells whether a look stands. */
type Done = Pick<Adjustment, 'at' | 'parameter' | 'unit' | 'amount'>;

/** What a look is set against. */
export interface Since {
  readonly rides: readonly RideLosses[];
  readonly adjustments: readonly Done[];
  /** When a fault began suddenly, Unix milliseconds; -Infinity where none did. */
  readonly beganMs: number;
}

/** The parts that need not be looked at again: those found right, and those aligned or replaced, which is a look as well. In order of time. */
export function seenTo(looks: readonly Look[], since: Since): Look[] {
  const asLooks = doneThatStands(({ amount }) => amount === null, since);
  return [...looksThatStand(looks, since), ...asLooks].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}

/** The limits whose screw was turned in and nothing set anew since. One that was turned out lets the chain further, and is no answer to a lost one. */
export const limitsTurnedIn = (since: Since): Look[] =>
  doneThatStands(
    ({ parameter, amount }) => (amount ?? 0) > 0 && cassetteEnds.some((end) => limitAt[end].parameter === parameter),
    since,
  );

/** What was done, by a rule, that stands as a look at the same part would. */
function doneThatStands(counts: (one: Done) => boolean, since: Since): Look[] {
  const stands = (done: Done): boolean =>
    looksThatStand([done], { ...since, adjustments: since.adjustments.filter((one) => one !== done) }).length > 0;
  return since.adjustments
    .filter((one) => counts(one) && stands(one))
    .map(({ at, parameter, unit }) => ({ at, parameter, unit }));
}

/** Ends past which a chain was lost and of which limit and hanger, which carries it, were both seen to since: `seen` holds what was looked at or set. */
export const lookedOver = (seen: readonly Look[], rides: readonly RideLosses[]): CassetteEnd[] =>
  cassetteEnds.filter(
    (end) =>
      lastLostMs(end, rides) > Number.NEGATIVE_INFINITY &&
      [limitAt[end].parameter, 'hanger'].every((part) => seen.some(({ parameter }) => parameter === part)),
  );

/**
 * The looks that need not be made again: made after the first ride, and since then nothing set the part anew, no fault began suddenly, and, at a limit
 * or the hanger that carries both, no chain was lost past that end.
 */
export function looksThatStand<One extends Pick<Look, 'at' | 'parameter'>>(
  looks: readonly One[],
  { rides, adjustments, beganMs }: Since,
): One[] {
  const ridingMs = rides.map(({ startMs }) => startMs).filter(hasClock);
  const firstMs = Math.min(...ridingMs);
  return looks.filter((look) => {
    const { at, parameter } = look;
    const lookMs = Date.parse(at);
    const ends = cassetteEnds.filter((end) => parameter === 'hanger' || parameter === limitAt[end].parameter);
    const lost = ends.some((end) => lastLostMs(end, rides) >= lookMs);
    // of one sitting the part that carries the others comes first in the order of work
    const before = (one: Done): boolean =>
      Date.parse(one.at) < lookMs || (one.parameter !== parameter && sameSitting(one, look, ridingMs));
    const anew = adjustments.some((one) => overtakes(one.parameter, parameter) && !before(one));
    return lookMs > firstMs && lookMs > beganMs && !lost && !anew;
  });
}
