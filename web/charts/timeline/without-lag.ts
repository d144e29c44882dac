import { bisectLeft } from 'd3-array';

/**
 * The cog the chain was on, as soon as it was there: each record takes the cog that the sensors show `lagS` later, since so late they
 * show what the chain does. Nothing is taken from beyond a moment without a cog (NaN), so that gaps stay where they are.
 *
 * @param cogs one a record; not changed
 * @param timeS rising
 * @param lagS how late the sensors follow the gear records; null where it is not known: nothing is moved then
 */
export function withoutLag(cogs: Float32Array, timeS: Float64Array, lagS: number | null): Float32Array {
  if (!lagS) return cogs;
  const moved = cogs.slice();
  const stretch = knownStretches(cogs);
  for (let i = 0; i < cogs.length; i++) {
    const shownAt = timeS[i] + lagS;
    const after = Math.min(bisectLeft(timeS, shownAt), cogs.length - 1);
    const nearest = after > 0 && shownAt - timeS[after - 1] < timeS[after] - shownAt ? after - 1 : after;
    if (stretch[nearest] === stretch[i]) moved[i] = cogs[nearest];
  }
  return moved;
}

/** A number for each record, the same as that of the record before unless one of the two has a cog and the other none. */
function knownStretches(cogs: Float32Array): Uint32Array {
  const stretch = new Uint32Array(cogs.length);
  for (let i = 1; i < cogs.length; i++)
    stretch[i] = stretch[i - 1] + (Number.isNaN(cogs[i]) === Number.isNaN(cogs[i - 1]) ? 0 : 1);
  return stretch;
}
