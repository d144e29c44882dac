import { counted } from '../../numeric/counted.ts';
import type { TurnEstimate } from '../diagnosis.ts';
import { type WholeTurns, wholeTurns } from '../whole-turns.ts';

/** How many are done of how many, where a part of the way was turned before. */
const partDone = (done: number, { noun, about }: WholeTurns): string =>
  ` ${counted(done, noun)} of about ${done + about} ${done === 1 ? 'is' : 'are'} done.`;

/**
 * How many clicks or steps a fault of the indexing asks for, as sentences to append: how far to go where the stand does not
 * show when both directions run alike, and how many it may take in all. There the fewest that the rides leave open are turned, the rest after a ride.
 *
 * @param inboard whether they are turned inboard
 * @param done how many were turned that way before, to no end yet; 0 where none were
 */
export function turnsInAll(clicks: TurnEstimate, inboard: boolean, done = 0): string {
  const turns = wholeTurns(clicks, inboard);
  const { noun, fewest, most } = turns;
  const until = fewest > 1 ? `after ${fewest} ${noun}s` : 'after the first, which may be enough';
  const stop = ` Where the stand does not show that, ride ${until}.`;
  const [so, all] = done > 0 ? [partDone(done, turns), 'It may take another'] : ['', 'In all it may take'];
  return `${stop}${so} ${all} ${fewest} to ${most} ${noun}s: how far one ${noun} moves differs from bike to bike.`;
}

/** Said where one ride's clicks or steps may be only a part of the way: shifts that still fail then do not mean that it was the wrong part. */
export function onlyPartOfTheWay(clicks: TurnEstimate, inboard: boolean): string {
  const { noun, fewest, most } = wholeTurns(clicks, inboard);
  return most > fewest
    ? ` Fewer than before, but still some, means the right way and not yet far enough: then on, ${noun} by ${noun}.`
    : '';
}
