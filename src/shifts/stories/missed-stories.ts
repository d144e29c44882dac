import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ChainPaths } from './chain-paths.ts';
import { elsewhereDensity } from './elsewhere-density.ts';
import type { ShiftContext } from './shift-context.ts';
import type { Story } from './story.ts';
import { evenDensity } from './turn-chances.ts';

/** Of missed shifts over one cog, the share of those in which the trace has mistaken the start (assumption of ours). */
const MISTAKEN_START = 0.15;
/**
 * The guide pulley stands at the commanded cog and draws the chain along: of missed shifts over several cogs so many are as likely to end on
 * each cog further from it as on the one before (assumption of ours).
 */
const FURTHER = 0.2;

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
  const pull = (cog: number): number => FURTHER ** (Math.abs(toCog - cog) - 1);
  const pulls = [...short, ...(startCog === toCog ? [] : [startCog])].reduce((sum, cog) => sum + pull(cog), 0);
  const several = mostCogs > 1;
  const stopped = short.map(
    (cog): Story => ({
      name: 'stopped-short',
      way: 'never',
      finalCog: cog,
      share: several ? pull(cog) / pulls : MISTAKEN_START / short.length,
      turnChances: elsewhereDensity,
      byArrival: paths.straightTo(cog),
    }),
  );
  if (startCog === toCog) return stopped;
  const stayed: Story = {
    name: 'stayed',
    way: 'never',
    finalCog: startCog,
    share: several ? pull(startCog) / pulls : 1 - MISTAKEN_START,
    turnChances: evenDensity,
    byArrival: paths.staying,
  };
  return [stayed, ...stopped];
}
