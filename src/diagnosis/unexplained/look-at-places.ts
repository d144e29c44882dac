import { listed } from '../../numeric/listed.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { type Cause, isIndexing } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';
import type { UnexplainedPlace } from './unexplained-places.ts';

/** The bike, and the cause that does not explain it. */
interface LookedAt {
  readonly cassette: readonly number[];
  readonly electronic: boolean;
  readonly by: Cause;
}

/** The limit that holds the chain off an end cog; null for any other. */
function tightLimit({ cog, direction }: UnexplainedPlace, last: number): Cause | null {
  if (cog === last && direction === 'to-larger') return 'low-limit-tight';
  return cog === 0 && direction === 'to-smaller' ? 'high-limit-tight' : null;
}

/** Where several cogs fail one way only, the pulley stands off: not where that is the cause already. */
function offOneWay(middle: readonly UnexplainedPlace[], by: Cause): Cause | null {
  const ways = new Set<Direction | null>(middle.map(({ direction }) => direction));
  const [way] = ways;
  const several = middle.length > 1 || middle.some(({ cog }) => cog === null);
  if (ways.size !== 1 || way === null || !several || isIndexing(by)) return null;
  return way === 'to-larger' ? 'cable-tension-low' : 'cable-tension-high';
}

/** What to look at, by where the shifts go wrong. Common practice in the trade, no source. */
export function lookAtPlaces(places: readonly UnexplainedPlace[], { cassette, electronic, by }: LookedAt): string {
  const last = cassette.length - 1;
  const limits = places.map((place) => tightLimit(place, last)).filter((cause) => cause !== null && cause !== by);
  const others = places.filter((place) => !limits.includes(tightLimit(place, last)));
  const index = offOneWay(others, by);
  const cogs = index ? [] : others.flatMap(({ cog }) => (cog === null ? [] : [cassette[cog]]));
  const whole = !index && others.some(({ cog }) => cog === null);
  return [
    ...limits.map((cause) => toldByHand(cause as Cause, electronic)),
    index && toldByHand(index, electronic),
    cogs.length > 0 &&
      `Look at the ${listed(cogs)} for bent or worn teeth, a missing or doubled spacer, a wrong cog; and whether ${cogs.length > 1 ? 'their' : 'its'} teeth are as written.`,
    whole && 'Have indexing, cable and hanger looked over.',
  ]
    .filter((look): look is string => Boolean(look))
    .join(' ');
}
