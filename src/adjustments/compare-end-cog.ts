import type { Adjustment } from './adjustment.ts';
import { DECIDED_AT, probabilityBetter, shiftsStillNeeded, type TroubleCount } from './compare-rates.ts';
import {
  type CassetteEnd,
  cassetteEnds,
  countEndCog,
  type EndCogCount,
  type EndCogEvents,
  wentWrong,
} from './end-cog-count.ts';
import { limitHolds, triesStillNeeded } from './limit-holds.ts';

/** Before against after on the end cog whose limit was turned, or past which a hanger that was seen to had let the chain. */
export interface EndCogComparison {
  readonly end: CassetteEnd;
  readonly before: EndCogCount;
  readonly after: EndCogCount;
  readonly probabilityBetter: number;
  /** More judged shifts onto that cog until it is decided, as `shiftsStillNeeded` counts them. */
  readonly shiftsStillNeeded: number | null;
}

/** The end of the cassette that a limit screw is for. */
export const endOfScrew: Partial<Record<Adjustment['parameter'], CassetteEnd>> = {
  'low-limit': 'past-largest',
  'high-limit': 'past-smallest',
};

const wrongOf = (count: EndCogCount): TroubleCount => ({ trouble: wentWrong(count), shifts: count.shifts });

/** The end at which what was done shows: a limit screw's; that past which most chains were lost before for a hanger, which carries both. */
function endOf(parameter: Adjustment['parameter'], { chainDrops }: EndCogEvents): CassetteEnd | undefined {
  if (parameter !== 'hanger') return endOfScrew[parameter];
  const lostPast = (end: CassetteEnd): number => chainDrops.filter(({ side }) => side === end).length;
  const [most] = cassetteEnds.filter((end) => lostPast(end) > 0).sort((a, b) => lostPast(b) - lostPast(a));
  return most;
}

/**
 * Whether turning a limit screw helped, by the shifts onto its end cog alone: all others it leaves as they were. Where chains were lost past
 * that cog and the screw was turned in, by whether it holds them now; so too a hanger that was aligned or replaced, where chains were lost before. Null for any other parameter.
 */
export function compareEndCog(
  { parameter, amount }: Pick<Adjustment, 'parameter' | 'amount'>,
  [earlier, later]: readonly [EndCogEvents, EndCogEvents],
  cassetteLength: number,
): EndCogComparison | null {
  const end = endOf(parameter, earlier);
  if (!end) return null;
  const [before, after] = [earlier, later].map((events) => countEndCog(events, end, cassetteLength));
  const [wrongBefore, wrongAfter] = [wrongOf(before), wrongOf(after)];
  const byRate = probabilityBetter(wrongBefore, wrongAfter);
  // a screw that was opened holds no chain, and a limit that keeps the chain from its cog is no cure
  const mayHold = parameter === 'hanger' || (amount ?? 0) > 0;
  if (!mayHold || before.lost === 0 || after.lost > 0 || byRate < 0.5)
    return {
      ...{ end, before, after },
      probabilityBetter: byRate,
      shiftsStillNeeded: shiftsStillNeeded(wrongBefore, wrongAfter),
    };
  return {
    ...{ end, before, after },
    probabilityBetter: limitHolds(before, after),
    shiftsStillNeeded: triesStillNeeded(before, after, DECIDED_AT),
  };
}
