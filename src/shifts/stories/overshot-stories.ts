import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ChainPaths } from './chain-paths.ts';
import { elsewhereDensity } from './elsewhere-density.ts';
import type { ShiftContext } from './shift-context.ts';
import type { Story } from './story.ts';
import { cleanOrLate } from './turn-chances.ts';

/** Of shifts that ended beyond the commanded cog, the share that was on it for a while (assumption of ours). */
const RAN_ON_SHARE = 0.5;
/** Of those, the share that ran on within the turns of a clean shift; the others took those of a late one (assumption of ours). */
const RAN_ON_SOON_SHARE = 0.3;
const ranOnDensity = cleanOrLate(RAN_ON_SOON_SHARE);

/**
 * The stories of a chain that goes past the commanded cog: straight to one of the cogs `beyond`, each as likely as another, or promptly
 * to the commanded one and from there on to the next.
 */
export function overshotStories(
  paths: ChainPaths,
  { toCog }: CommandedShift,
  { startCog }: Pick<ShiftContext, 'startCog'>,
  beyond: readonly number[],
): Story[] {
  const nextCog = toCog + Math.sign(toCog - startCog);
  const mayRunOn = beyond.includes(nextCog);
  const wentBeyond = beyond.map(
    (cog): Story => ({
      name: 'went-beyond',
      way: 'overshot',
      finalCog: cog,
      share: (mayRunOn ? 1 - RAN_ON_SHARE : 1) / beyond.length,
      turnChances: elsewhereDensity,
      byArrival: paths.straightTo(cog),
    }),
  );
  if (!mayRunOn) return wentBeyond;
  const ranOn: Story = {
    name: 'ran-on',
    way: 'overshot',
    finalCog: nextCog,
    share: RAN_ON_SHARE,
    turnChances: ranOnDensity,
    byArrival: paths.haltingOn(toCog, nextCog),
  };
  return [...wentBeyond, ranOn];
}
