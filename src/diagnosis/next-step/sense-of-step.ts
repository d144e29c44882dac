import { limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { signOfCure } from '../now/turned-towards.ts';
import { nextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/**
 * Which way a step turns what it names, with the sign of the table of adjustments: as the step itself says, where it does. Null where it turns nothing, where nothing is to be
 * turned before a ride, or where it is open between two faults that want it turned either way.
 */
export function senseOfStep(
  { parameter, sense }: Pick<Step, 'parameter' | 'sense'>,
  { ranked, undecided, now, electronic }: Pick<SuggestionFacts, 'ranked' | 'undecided' | 'now' | 'electronic'>,
): 1 | -1 | null {
  if (sense !== undefined) return sense;
  if (now.setting === 'untested') return null;
  const mends = (cause: Cause): boolean => cause !== 'no-fault' && nextStep(cause, electronic).parameter === parameter;
  const found: readonly Cause[] = now.tooFar ? [now.tooFar.fault] : (undecided?.between ?? [ranked[0].cause]);
  // a limit past which a chain was lost is never opened
  const loose = [...now.keepOff].map((end): Cause => limitAt[end].loose).filter(mends);
  const faults = loose.length > 0 ? loose : found.filter(mends);
  const signs = new Set(faults.map(signOfCure));
  return signs.size === 1 ? ([...signs][0] ?? null) : null;
}
