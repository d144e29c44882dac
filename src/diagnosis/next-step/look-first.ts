import type { Cause } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';
import { generalCautions, nextStep } from './next-steps.ts';
import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';

const isFault = (cause: Cause): cause is Fault => cause !== 'no-fault';

/**
 * The step where it is open what it is, and no ride made for it would tell, or none is to be ridden: the causes in question are looked at by
 * hand.
 *
 * @param why what is open, to stand within a sentence
 */
export function lookFirst({ ranked, undecided, electronic }: SuggestionFacts, why: string): Step {
  const open: readonly Cause[] = undecided?.between ?? ranked.slice(0, 2).map(({ cause }) => cause);
  const faults = open.filter(isFault);
  const step = nothingToTurn(
    `Turn nothing yet: ${why}. A look tells more than a ride made for it.`,
    faults.map((fault) => toldByHand(fault, electronic)).join(' '),
    KEEP_RECORDING,
  );
  const cautions = faults.flatMap((fault) => nextStep(fault, electronic).cautions);
  return { ...step, cautions: [...new Set([...cautions, ...generalCautions])] };
}
