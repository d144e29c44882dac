import { cassetteEnds } from '../../adjustments/end-cog-count.ts';
import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { causePlace, shiftsAt } from '../cause-place.ts';
import { observe } from '../observed.ts';
import { awaitedProof } from './awaited-proof.ts';
import { goesAgainst } from './goes-against.ts';
import { betterSince } from './got-better.ts';
import type { NowFacts } from './now-facts.ts';
import type { SeenSince } from './seen-since.ts';

type DoneAndSeen = Pick<NowFacts, 'rides' | 'bike' | 'cause' | 'comparisons'>;

/** Whether what was done last may have mended a fault, whatever the imagined bikes make of its amount. */
export const mayBeMended = (facts: DoneAndSeen, since: SeenSince): boolean =>
  gotBetterSince(facts, since) || awaitsProof(facts, since);

/**
 * Whether what was done last made it better for sure, and where the fault shows hardly anything went wrong since, plainly less than before: what the imagined
 * bikes make of its amount does not outweigh that.
 */
function gotBetterSince({ rides, bike, cause, comparisons }: DoneAndSeen, { last, seen, lost }: SeenSince): boolean {
  const better = last && betterSince(comparisons, cause, last.at, seen);
  if (!better || better.wrongWay || cassetteEnds.some((end) => lost(end) > 0)) return false;
  const inAll = observe(rides, bike);
  const place = causePlace(cause, inAll);
  const [all, since] = [inAll, seen].map((some) => (place ? shiftsAt(some, place) : some.all));
  const before = { shifts: all.shifts - since.shifts, trouble: all.trouble - since.trouble };
  return wilsonInterval(since.trouble, since.shifts).high < wilsonInterval(before.trouble, before.shifts).low;
}

/** Whether what was done last goes against the fault, nothing went wrong since where that shows, and it helped for sure, or so few more shifts will tell that they come before any further turn. */
function awaitsProof({ cause, comparisons }: DoneAndSeen, { seen }: SeenSince): boolean {
  const last = comparisons.at(-1);
  // one that is proved already to have helped is left no less alone than one that is still to be proved
  if (!last || !(awaitedProof(comparisons) || helpedForSure(last)) || !goesAgainst(cause, last)) return false;
  const place = causePlace(cause, seen);
  const { shifts, trouble } = place ? shiftsAt(seen, place) : seen.all;
  return shifts > 0 && trouble === 0;
}
