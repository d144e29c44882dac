import type { Direction, DropSide, RideEvents } from '../shifts/ride-events.ts';
import type { CogTally } from './cog-tally.ts';
import { movesOnto, tallyTrouble } from './trouble-tally.ts';

/**
 * Tallies of one or many rides by target cog and direction, for every cog of the cassette in both directions where the
 * chain can arrive that way (nothing arrives on the smallest cog to-larger), smallest cog first, `to-larger` before
 * `to-smaller`. Unjudged shifts do not count. No rides: all zero, rate NaN, interval 0 to 1.
 */
export function tallyCogs(events: readonly RideEvents[], cassetteLength: number): CogTally[] {
  const moves = {
    shifts: events.flatMap((ride) => ride.shifts),
    ghostShifts: events.flatMap((ride) => ride.ghostShifts),
  };
  const drops = events.flatMap(({ chainDrops }) => chainDrops);
  const tally = (cog: number, direction: Direction): CogTally => {
    const side = sidePast(cog, direction, cassetteLength);
    const dropConfidences = drops.filter((drop) => drop.side === side).map(({ confidence }) => confidence);
    return {
      cog,
      direction,
      ...tallyTrouble(movesOnto(moves, cog, direction)),
      chainDrops: dropConfidences.length,
      dropConfidences,
    };
  };
  return Array.from({ length: cassetteLength }, (_, cog) => [
    ...(cog > 0 ? [tally(cog, 'to-larger')] : []),
    ...(cog < cassetteLength - 1 ? [tally(cog, 'to-smaller')] : []),
  ]).flat();
}

/** On which side a chain is lost that runs past a cog in a direction; null where there is a cog beyond. */
function sidePast(cog: number, direction: Direction, cassetteLength: number): DropSide | null {
  if (cog === 0 && direction === 'to-smaller') return 'past-smallest';
  return cog === cassetteLength - 1 && direction === 'to-larger' ? 'past-largest' : null;
}
