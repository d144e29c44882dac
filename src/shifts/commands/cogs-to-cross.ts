/** Crank turns within which a healthy shift is done: after fewer the chain may still lie where it lay before. */
const DONE_REVS = 1;
/** Shifts looked back at, at most: no rider presses more often in one spell of coasting, and where cadence is missing no turn ends the search. */
const MOST_BEFORE = 24;

/** A shift asked for, by cassette index and by the times of its first and last command, s. */
interface AskedShift {
  readonly timeS: number;
  readonly lastTimeS: number;
  readonly fromCog: number;
  readonly toCog: number;
}

/**
 * Cogs the chain has to cross to the cog that shift `i` asks for: more than the shift's own where the cranks hardly turned since the
 * shifts before it, as when a rider shifts while coasting. The chain then crosses all of them once pedalling begins.
 *
 * @param revsAt crank turns made until a time
 */
export function cogsToCross(shifts: readonly AskedShift[], i: number, revsAt: (timeS: number) => number): number {
  const { timeS, fromCog, toCog } = shifts[i];
  const revs = revsAt(timeS);
  let most = Math.abs(toCog - fromCog);
  for (let k = i - 1; k >= Math.max(0, i - MOST_BEFORE) && revs - revsAt(shifts[k].lastTimeS) < DONE_REVS; k--)
    most = Math.max(most, Math.abs(toCog - shifts[k].fromCog));
  return most;
}
