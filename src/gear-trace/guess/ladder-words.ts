import { chance } from '../../numeric/percent.ts';
import type { LadderGuess } from './guess-from-ladder.ts';
import { madeUpWords } from './made-up-cogs.ts';

/** Below this likelihood the other number of rings is named too, and other cogs are said to fit about as well. */
const SURE = 0.8;

/** What is said of a drivetrain read from a ladder of ratios: the cogs it shows, what is made up, and how far another would explain it too. */
export function ladderWords(
  { bike, seenCogs, likelihood, ringsLikelihood }: LadderGuess,
  madeUp: readonly number[],
): string {
  const [rings, other] = bike.chainrings.length === 1 ? ['One ring', 'two'] : ['Two rings', 'one'];
  const ringsInDoubt =
    ringsLikelihood < SURE
      ? ` ${rings} cannot be told from ${other} for sure here (${chance(ringsLikelihood)} likely).`
      : '';
  const cogsInDoubt =
    likelihood < SURE
      ? ` Other cogs explain the ratios too: these are ${chance(likelihood)} likely, whatever their scale.`
      : '';
  return `The drivetrain is worked out from the ladder of speed-to-cadence ratios, which shows ${seenCogs.length} cogs (${seenCogs.join(', ')}).${madeUpWords(madeUp)}${ringsInDoubt}${cogsInDoubt} Ratios give teeth up to a common scale only: check rings, cogs and rollout.`;
}
