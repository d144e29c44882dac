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
