import type { GearStates } from './gear-states.ts';
import type { Situation } from './transition-situation.ts';

/** Share of the chains put back that run straight to the commanded ring and cog; the rest lie on any. Assumptions of ours. */
const REGAINED = { ring: { to: 0.8, any: 0.2 }, cog: { to: 0.7, any: 0.3 } } as const;

/** Share that lies on `place`, one of `places`, where `commanded` (-1: none) is commanded. */
function commandedShare(
  place: number,
  commanded: number,
  places: number,
  { to, any }: { readonly to: number; readonly any: number },
): number {
  if (commanded < 0) return 1 / places;
  return place === commanded ? to + any / places : any / places;
}

const shareCache = new WeakMap<GearStates, Map<number, Float64Array>>();

/** A chain put back lies anywhere, likeliest on the commanded gear, to which it runs in a few turns. */
export function regainShares(states: GearStates, s: Situation): Float64Array {
  const cache = shareCache.get(states) ?? new Map<number, Float64Array>();
  shareCache.set(states, cache);
  const id = (s.cog + 1) * 8 + s.ring + 1;
  let shares = cache.get(id);
  if (!shares) {
    const { rings, cogs, gears } = states;
    shares = new Float64Array(gears);
    for (let r = 0; r < rings; r++)
      for (let c = 0; c < cogs; c++) {
        const ringShare = commandedShare(r, s.ring, rings, REGAINED.ring);
        const cogShare = commandedShare(c, s.cog, cogs, REGAINED.cog);
        shares[r * cogs + c] = ringShare * cogShare;
      }
    cache.set(id, shares);
  }
  return shares;
}
