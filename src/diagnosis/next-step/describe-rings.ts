import type { Suggestion } from '../diagnosis.ts';
import { nothingToTurn } from './step.ts';

/** The next step where it is not known how many rings a bike has: no shift of it tells anything until they are written down. */
export function describeRings({ inspectFirst, cautions }: Suggestion): Suggestion {
  const step = nothingToTurn(
    'Turn nothing yet: on how many rings the bike was pedalled is not known, so its shifts cannot be told from changes of ring.',
    'Describe the bike: write down all its rings and cogs.',
    'Look again then: the same rides are weighed anew, and need not be ridden again.',
  );
  return { ...step, action: step.steps.join(' '), inspectFirst, cautions };
}
