import type { Suggestion } from '../../diagnosis/diagnosis.ts';
import type { Caution } from '../../diagnosis/next-step/caution.ts';
import { nothingToTurn } from '../../diagnosis/next-step/step.ts';

/** A step that turns nothing. */
export interface OtherStep {
  readonly steps: readonly string[];
  readonly start: string;
  readonly verify: string;
  /** What is to be heeded for it, before all else. */
  readonly cautions?: readonly Caution[];
}

/** Such a step in place of the one suggested, which leaves its cautions: a chain that came off is looked at whatever the step is. */
export function instead(
  { inspectFirst, cautions, cautionKinds }: Suggestion,
  { steps, start, verify, cautions: own = [] }: OtherStep,
): Suggestion {
  return {
    ...nothingToTurn('', start, verify),
    steps,
    action: steps.join(' '),
    inspectFirst,
    cautions: [...own.map(({ text }) => text), ...cautions],
    cautionKinds: [...own.map(({ kind }) => kind), ...cautionKinds],
  };
}
