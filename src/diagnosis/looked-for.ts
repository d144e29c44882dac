import type { Adjustment } from '../adjustments/adjustment.ts';
import { type Cause, indexingCauses } from './causes.ts';

type Parameter = Adjustment['parameter'];

/** What a look at a part tells of, and what makes an older look at it say nothing more. */
interface LookedFor {
  readonly faults: readonly Cause[];
  readonly overtakenBy: readonly Parameter[];
}

/** Whatever moves the cogs or the derailleur sets every stop and the indexing anew. */
const movesAll: readonly Parameter[] = ['hanger', 'cassette', 'wheel'];

/** Common practice in the trade, no source. */
const lookedFor: Readonly<Record<Parameter, LookedFor>> = {
  'cable-tension': { faults: indexingCauses, overtakenBy: ['cable-tension', 'cable-and-housing', ...movesAll] },
  'index-offset': { faults: indexingCauses, overtakenBy: ['index-offset', ...movesAll] },
  'low-limit': { faults: ['low-limit-tight', 'low-limit-loose'], overtakenBy: ['low-limit', ...movesAll] },
  'high-limit': { faults: ['high-limit-tight', 'high-limit-loose'], overtakenBy: ['high-limit', ...movesAll] },
  'pulley-gap': { faults: ['pulley-gap-small', 'pulley-gap-large'], overtakenBy: ['pulley-gap', ...movesAll] },
  hanger: { faults: ['hanger-bent'], overtakenBy: ['hanger'] },
  'cable-and-housing': { faults: ['cable-friction'], overtakenBy: ['cable-and-housing'] },
  chain: { faults: ['worn-drivetrain'], overtakenBy: ['chain'] },
  cassette: { faults: ['worn-drivetrain'], overtakenBy: ['cassette', 'wheel'] },
  wheel: { faults: [], overtakenBy: ['wheel'] },
};

/** Whether a look at a part or setting looks for a cause. */
export const looksFor = (parameter: Parameter, cause: Cause): boolean => lookedFor[parameter].faults.includes(cause);

/** Whether work on one part makes a look at another say nothing of what comes after it. */
export const overtakes = (work: Parameter, looked: Parameter): boolean => lookedFor[looked].overtakenBy.includes(work);
