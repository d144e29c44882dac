import type { DropSide, RideEvents } from '../shifts/ride-events.ts';

/** Ends of the cassette past which a chain can be lost. */
export type CassetteEnd = Extract<DropSide, 'past-largest' | 'past-smallest'>;

/** Both ends: the one at the spokes first. */
export const cassetteEnds: readonly CassetteEnd[] = ['past-largest', 'past-smallest'];

/** What became of the shifts onto an end cog from its neighbours' side, over some riding. */
export interface EndCogCount {
  /** Shifts commanded onto it, judged or not; never fewer than chains lost past it. */
  readonly asked: number;
  /** Those of them of which it is known how they went: judged, or lost. */
  readonly shifts: number;
  /** Those of them that brought the chain there, missed ones left out: only they tell whether it stays on. */
  readonly reached: number;
  /** Judged ones that were late, missed or overshot. */
  readonly trouble: number;
  /** Chains lost past it. */
  readonly lost: number;
}

/** As much of the rides as an end cog is counted on. */
export type EndCogEvents = Pick<RideEvents, 'shifts' | 'chainDrops'>;

/** The end cog's place in a cassette of so many cogs. */
export const endCog = (end: CassetteEnd, cassetteLength: number): number =>
  end === 'past-largest' ? cassetteLength - 1 : 0;

/** Counts what happened on an end cog. A lost chain leaves its own shift unjudged as often as missed: it counts once. */
export function countEndCog(
  { shifts, chainDrops }: EndCogEvents,
  end: CassetteEnd,
  cassetteLength: number,
): EndCogCount {
  const onto = shifts.filter(({ toCog }) => toCog === endCog(end, cassetteLength));
  const judged = onto.filter(({ outcome }) => outcome !== 'unjudged');
  const lost = chainDrops.filter(({ side }) => side === end).length;
  const trouble = judged.filter(({ outcome }) => outcome !== 'clean').length;
  const missed = judged.filter(({ outcome }) => outcome === 'missed').length;
  // a chain may be lost from a shift that was clean at first: no more went well or lost it than were asked for
  const asked = Math.max(onto.length, lost);
  const cleanOrLost = Math.min(asked, judged.length - trouble + lost);
  return {
    asked,
    shifts: Math.max(judged.length, cleanOrLost),
    reached: Math.max(judged.length - missed, cleanOrLost),
    trouble,
    lost,
  };
}

/** Shifts of a count that went wrong in any way: a lost chain is often judged a missed shift too. */
export const wentWrong = ({ trouble, lost }: Pick<EndCogCount, 'trouble' | 'lost'>): number => Math.max(trouble, lost);
