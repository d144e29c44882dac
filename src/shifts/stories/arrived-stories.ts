import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ChainPaths } from './chain-paths.ts';
import type { ShiftContext } from './shift-context.ts';
import type { Story } from './story.ts';
import { cleanDensity, lateDensity, slowDensity, veryLateDensity } from './turn-chances.ts';

/** Of late shifts over several cogs, the share that only the last cog made late (assumption of ours). */
const LAST_COG_SHARE = 0.5;

/**
 * The stories of a chain that comes to the commanded cog: straight, in time, slowly in time, late or very late. Over several cogs a late one may also have
 * come promptly as far as the cog before the commanded one, and only the last step was late.
 */
export function arrivedStories(
  paths: ChainPaths,
  { toCog }: CommandedShift,
  { startCog }: Pick<ShiftContext, 'startCog'>,
): [Story, ...Story[]] {
  const severalCogs = Math.abs(toCog - startCog) > 1;
  const late = { way: 'late', turnChances: lateDensity } as const;
  const veryLate = { way: 'veryLate', turnChances: veryLateDensity } as const;
  const straight = {
    finalCog: toCog,
    share: severalCogs ? 1 - LAST_COG_SHARE : 1,
    byArrival: paths.straightTo(toCog),
  };
  const stories: [Story, ...Story[]] = [
    { ...straight, name: 'straight', way: 'clean', share: 1, turnChances: cleanDensity },
    { ...straight, name: 'straight-slow', way: 'slow', share: 1, turnChances: slowDensity },
    { ...straight, name: 'straight-late', ...late },
    { ...straight, name: 'straight-very-late', ...veryLate },
  ];
  if (!severalCogs) return stories;
  const cogBefore = toCog - Math.sign(toCog - startCog);
  const lastCog = { finalCog: toCog, share: LAST_COG_SHARE, byArrival: paths.haltingOn(cogBefore, toCog) };
  return [
    ...stories,
    { ...lastCog, name: 'last-cog-late', ...late },
    { ...lastCog, name: 'last-cog-very-late', ...veryLate },
  ];
}
