import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ChainPaths } from './chain-paths.ts';
import { elsewhereDensity } from './elsewhere-density.ts';
import type { ShiftContext } from './shift-context.ts';
import type { Story } from './story.ts';
import { evenDensity } from './turn-chances.ts';

/**
 * Of missed shifts, the share that stops on a cog between; where none seems to lie between in any reading, the trace may have mistaken
 * the start (assumptions of ours).
 */
const STOPPED_SHORT_SHARE = { single: 0.15, overSeveral: 0.5 } as const;

/**
 * The stories of a chain that does not come to the commanded cog: it stayed where it was, unless it was there already, or it stopped
 * on one of the cogs `short` of it, each as likely as another.
 */
export function missedStories(
  paths: ChainPaths,
  { toCog }: CommandedShift,
  { startCog, mostCogs }: Pick<ShiftContext, 'startCog' | 'mostCogs'>,
  short: readonly number[],
): Story[] {
  const shortShare = mostCogs > 1 ? STOPPED_SHORT_SHARE.overSeveral : STOPPED_SHORT_SHARE.single;
  const stopped = short.map(
    (cog): Story => ({
      name: 'stopped-short',
      way: 'never',
      finalCog: cog,
      share: shortShare / short.length,
      turnChances: elsewhereDensity,
      byArrival: paths.straightTo(cog),
    }),
  );
  if (startCog === toCog) return stopped;
  const stayed: Story = {
    name: 'stayed',
    way: 'never',
    finalCog: startCog,
    share: 1 - shortShare,
    turnChances: evenDensity,
    byArrival: paths.staying,
  };
  return [stayed, ...stopped];
}
