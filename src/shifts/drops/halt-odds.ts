import { betaMidpoints } from '../../numeric/beta-distribution.ts';
import type { EndCog, HaltCount } from '../ride-events.ts';

/** Each distribution of shares is stood for by so many, each as likely. */
const STEPS = 16;
/** Share of the rides on which the chain is thrown past this end of the cassette time and again (assumption of ours). */
const LOOSE_SHARE = 0.007;
/** On such a ride, the share of the shifts onto the end cog that lose the chain and stop the rider at once (assumption of ours). */
const lostShares = betaMidpoints({ a: 1, b: 3 }, STEPS);

/**
 * What is held of halts that a rider meant, before the ride has told (assumptions of ours): after how many shifts onto other cogs one
 * follows, how many shifts that counts for, how much likelier one is after a shift onto the end cog, and how many shifts that is sure by.
 * Riders shift to larger cogs for a stop that they see coming, and further the sooner it comes; nobody shifts to the smallest for one.
 */
const MEANT = {
  largest: { share: 0.03, weight: 30, atEnd: 2, sureBy: 10 },
  smallest: { share: 0.006, weight: 150, atEnd: 1, sureBy: 100 },
} as const;

/** Shares of the shifts onto an end cog after which a rider halts on purpose, each as likely as the next, by the same rider's shifts onto other cogs in that direction. */
export function meantShares(end: EndCog, elsewhere: HaltCount): number[] {
  const { share, weight, atEnd, sureBy } = MEANT[end];
  const usual = Math.min(0.5, (atEnd * (elsewhere.halts + share * weight)) / (elsewhere.shifts + weight));
  return betaMidpoints({ a: usual * sureBy, b: (1 - usual) * sureBy }, STEPS);
}

/**
 * Odds that one halt after a shift onto an end cog is of a lost chain, by how often such halts follow there and after the same rider's shifts
 * onto other cogs: one may be chance, three of ten are not. Neither the one halt's length nor what the legs did is in it.
 *
 * @param here shifts onto the end cog, the one in question among them
 * @param elsewhere shifts onto other cogs in the same direction
 */
export function haltOdds(end: EndCog, here: HaltCount, elsewhere: HaltCount): number {
  const others = here.halts - 1;
  const without = here.shifts - here.halts;
  let [lost, meant] = [0, 0];
  for (const m of meantShares(end, elsewhere)) {
    meant += (1 - LOOSE_SHARE) * lostShares.length * m ** others * (1 - m) ** without * m;
    for (const l of lostShares) {
      const halting = l + (1 - l) * m;
      const rest = LOOSE_SHARE * halting ** others * (1 - halting) ** without;
      lost += rest * l;
      meant += rest * (1 - l) * m;
    }
  }
  return lost / meant;
}
