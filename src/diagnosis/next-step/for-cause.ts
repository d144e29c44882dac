import { beganSuddenly } from '../posterior/onset.ts';
import { generalCautions, nextStep } from './next-steps.ts';
import { limitFirst, lookAtLimits, opensWhereLost } from './not-settled.ts';
import type { Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { turnsInAll } from './turns-in-all.ts';
import { verifyNow } from './verify-now.ts';

/** The step for one cause that is there, as it was named. */
export function forCause(cause: Fault, facts: SuggestionFacts): Step {
  const { electronic, clicks, onset, now } = facts;
  if (opensWhereLost(cause, now.keepOff)) return limitFirst([...now.keepOff], facts);
  const step = nextStep(cause, electronic);
  const tension = cause === 'cable-tension-low' || cause === 'cable-tension-high';
  const sudden = beganSuddenly(onset) && cause !== 'hanger-bent';
  // a bent hanger carries the limits along
  const limitToo = cause === 'hanger-bent' ? lookAtLimits(now.keepOff, electronic) : [];
  return {
    namesCause: true,
    parameter: step.parameter,
    steps: [
      ...(sudden ? ['It began suddenly, so look for damage and have the hanger checked first.'] : []),
      step.action,
      ...limitToo,
    ],
    start: step.start + (tension ? turnsInAll(clicks, cause === 'cable-tension-low') : ''),
    verify: verifyNow(cause, facts),
    cautions: [...step.cautions, ...generalCautions],
  };
}
