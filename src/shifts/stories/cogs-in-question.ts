import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ShiftContext } from './shift-context.ts';

/** Other cogs than the commanded one on which a chain that left the start may have ended. */
export interface CogsInQuestion {
  /** On the side of the commanded cog from which the rider shifted. */
  readonly short: readonly number[];
  /** On its other side. */
  readonly beyond: readonly number[];
}

/**
 * The cogs between the start and the commanded one, and two beyond that. Where the next shift soon goes on in the same direction, going
 * beyond looks like that shift and is left out.
 *
 * @param cogs of the cassette
 */
export function cogsInQuestion(
  shift: CommandedShift,
  { startCog, after }: Pick<ShiftContext, 'startCog' | 'after'>,
  cogs: number,
): CogsInQuestion {
  const onward = Math.sign(shift.toCog - shift.fromCog);
  const wanted = new Set<number>();
  if (after === null || (after.cog - shift.toCog) * onward < 0)
    wanted.add(shift.toCog + onward).add(shift.toCog + 2 * onward);
  const step = Math.sign(shift.toCog - startCog);
  if (step !== 0) for (let cog = startCog + step; cog !== shift.toCog; cog += step) wanted.add(cog);
  const found = [...wanted].filter((cog) => cog >= 0 && cog < cogs && cog !== startCog);
  return {
    short: found.filter((cog) => (cog - shift.toCog) * onward < 0),
    beyond: found.filter((cog) => (cog - shift.toCog) * onward > 0),
  };
}
