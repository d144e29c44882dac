import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { turningFrom } from '../turns/turning-from.ts';
import { arrivedStories } from './arrived-stories.ts';
import { chainPaths } from './chain-paths.ts';
import { cogsInQuestion } from './cogs-in-question.ts';
import { missedStories } from './missed-stories.ts';
import { overshotStories } from './overshot-stories.ts';
import type { ShiftContext } from './shift-context.ts';
import { shiftWindow } from './shift-window.ts';
import type { Story } from './story.ts';

/** Crank revolutions within which a chain that halts on its way has come that far: those of most clean shifts (see `cleanDensity`). Assumptions of ours. */
const PROMPT_REVS = [0.3, 0.6, 1];

/** How well each story of one shift fits the records around it, in one reading of its surroundings. */
export interface ArrivalTable {
  readonly shift: CommandedShift;
  readonly context: ShiftContext;
  /** The stories in question; the first is that of a chain that came straight to the commanded cog. */
  readonly stories: readonly [Story, ...Story[]];
  /** Log likelihood of a chain that does not arrive within the window, wherever it was to go. */
  readonly stay: number;
  /** Records with a ratio after the command; 0 means that nothing was seen. */
  readonly seen: number;
}

/**
 * Weighs every story of a shift.
 *
 * @param riseWidthS how long the sensors smear a change of ratio, standard deviation in seconds
 * @throws TypeError for a ride without a gear model
 */
export function arrivalTable(
  ride: RideInQuestion,
  shift: CommandedShift,
  context: ShiftContext,
  riseWidthS: number,
): ArrivalTable {
  const window = shiftWindow(ride, shift, context, riseWidthS);
  const { log, trace, clock } = ride;
  const shownFromS = turningFrom(clock, shift.lastTimeS + context.lagS);
  const haltsS = PROMPT_REVS.map((revs) => clock.after(shownFromS, revs));
  const paths = chainPaths(window, context.startCog, haltsS);
  const { short, beyond } = cogsInQuestion(shift, context, trace.model?.cogs ?? 0);
  return {
    shift,
    context,
    stories: [
      ...arrivedStories(paths, shift, context),
      ...missedStories(paths, shift, context, short),
      ...overshotStories(paths, shift, context, beyond),
    ],
    stay: paths.staying[0],
    seen: window.records.filter((i) => log.timeS[i] > shift.lastTimeS).length,
  };
}
