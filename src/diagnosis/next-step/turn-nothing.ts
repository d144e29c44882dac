import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

type Asked = Pick<SuggestionFacts, 'now'>;

/** Whether a step that turns nothing comes after a look that may turn a limit screw: every end past which the chain was lost is looked at first. */
const afterALook = ({ now }: Asked): boolean => now.keepOff.size > 0;

/** How a step that turns nothing begins. */
export const turnNothing = (facts: Asked): string => (afterALook(facts) ? 'Turn nothing else' : 'Turn nothing');

/** The same where nothing is the matter. */
export const leaveEverything = (facts: Asked): string =>
  afterALook(facts) ? 'Leave everything else as it is.' : 'Leave everything as it is.';

/** How a step is begun that asks for nothing: it says no more than the step itself. */
export const NOTHING_NEEDS_TURNING = 'Nothing needs to be turned.';

/** How such a step is begun; empty after a look, which is then the beginning. `so`: as long as what holds, to stand after "turned". */
export const nothingNeedsTurning = (facts: Asked, so = ''): string =>
  afterALook(facts) ? '' : so === '' ? NOTHING_NEEDS_TURNING : `Nothing needs to be turned${so}.`;

/** What the verdict does next, and what that leaves to the rider. */
export type LeftToDo = Required<Pick<Step, 'verify' | 'asks'>>;

/** Where nothing is left to do but to ride. */
export const keepRecording: LeftToDo = { verify: KEEP_RECORDING, asks: 'nothing' };

/** A step that leaves everything as it is. After a look, which then is what is asked for, it asks for nothing of its own. */
export function leaveAsItIs(action: string, { verify, asks }: LeftToDo, facts: Asked): Step {
  const step = nothingToTurn(action, nothingNeedsTurning(facts), verify);
  return afterALook(facts) ? step : { ...step, asks };
}
