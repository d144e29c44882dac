import { bisectLeft } from 'd3-array';
import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';

/** What the line of the chain is moved by, and what it is not moved across. */
interface LagFacts {
  readonly timeS: Float64Array;
  /** How late the sensors follow the gear records; null where it is not known: nothing is moved then. */
  readonly lagS: number | null;
  readonly lost: readonly LostSpell[];
  /** Longer without a record is a pause. */
  readonly gapS: number;
}

/**
 * The cog the chain was on, as soon as it was there: each record takes what the sensors show `lagS` later, since so late they show what
 * the chain does. Nothing is taken across a pause, or the bounds of a spell without drive: those are drawn where they stand.
 *
 * @param cogs one a record, NaN where not known; not changed
 */
export function withoutLag(cogs: Float32Array, facts: LagFacts): Float32Array {
  const { timeS, lagS } = facts;
  if (!lagS) return cogs;
  const moved = cogs.slice();
  const stretch = stretchesOf(facts);
  for (let i = 0; i < cogs.length; i++) {
    const shownAt = timeS[i] + lagS;
    const after = Math.min(bisectLeft(timeS, shownAt), cogs.length - 1);
    const nearest = after > 0 && shownAt - timeS[after - 1] < timeS[after] - shownAt ? after - 1 : after;
    if (stretch[nearest] === stretch[i]) moved[i] = cogs[nearest];
  }
  return moved;
}

/** A number for each record, another one after each pause and each bound of a spell without drive. */
function stretchesOf({ timeS, lost, gapS }: LagFacts): Uint32Array {
  const bounds = lost.flatMap(({ fromS, toS }) => [fromS, toS]).sort((a, b) => a - b);
  const stretch = new Uint32Array(timeS.length);
  let [bound, number] = [0, 0];
  for (let i = 0; i < timeS.length; i++) {
    if (i > 0 && timeS[i] - timeS[i - 1] > gapS) number++;
    for (; bounds[bound] <= timeS[i]; bound++) number++;
    stretch[i] = number;
  }
  return stretch;
}
