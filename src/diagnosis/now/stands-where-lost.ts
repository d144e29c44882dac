import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { StandingHarm } from '../../adjustments/standing-harm.ts';
import { turnedInAll } from '../../adjustments/turned-in-all.ts';
import { limitAt } from '../cassette-ends.ts';
import { overtakes } from '../looked-for.ts';
import { lastLostMs, type RideLosses } from './last-lost.ts';

/** A limit screw that was turned in after a chain was lost past its end, and out again. `back`: turns that would screw it in as far as it was. */
export interface StandsWhereLost extends StandingHarm {
  readonly end: CassetteEnd;
  /** Whether it stands further out even than where the chain was lost. */
  readonly furtherOut: boolean;
}

/**
 * Whether a limit that was turned since the chain was last lost past its end stands no further in than then: what it let past there it lets past again,
 * however few shifts there were. Null where it does not, and where something moved the cogs or the derailleur since, so that it stops elsewhere.
 *
 * @param adjustments that stand, in order of time
 */
export function standsWhereLost(
  end: CassetteEnd,
  rides: readonly RideLosses[],
  adjustments: readonly Pick<Adjustment, 'at' | 'parameter' | 'amount' | 'unit'>[],
): StandsWhereLost | null {
  const { parameter } = limitAt[end];
  const lostMs = lastLostMs(end, rides);
  const since = lostMs === Number.NEGATIVE_INFINITY ? [] : adjustments.filter(({ at }) => Date.parse(at) > lostMs);
  if (since.some((one) => one.parameter !== parameter && overtakes(one.parameter, parameter))) return null;
  const turns = since.filter((turn) => turn.parameter === parameter);
  const out = turns.findLast(({ amount }) => (amount ?? 0) < 0);
  const stands = turnedInAll(turns);
  if (!out || stands > 0) return null;
  const furthestIn = Math.max(0, ...turns.map((_, i) => turnedInAll(turns.slice(0, i + 1))));
  const back = turnedInAll([{ amount: furthestIn }, { amount: -stands }]);
  return { end, at: out.at, parameter, unit: out.unit, back, furtherOut: stands < 0 };
}
