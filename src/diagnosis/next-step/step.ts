import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { Suggestion } from '../diagnosis.ts';
import type { Caution } from './caution.ts';
import { generalCautions } from './step-cautions.ts';

/** What is looked at by hand: the limit at an end of the cassette, the hanger, the place of what no cause explains. */
export type LookedAtPlace = CassetteEnd | 'hanger' | 'unexplained';

/** How else the first step of a step by itself is said. */
interface FirstStep {
  /** Where the hanger was looked at before it; absent where that makes no difference. */
  readonly afterHanger?: string;
  /** Without why; absent where it is told whole. */
  readonly inShort?: string;
}

/** A step by itself, before it is known what comes before it, and whether a chain came off. */
export interface Step extends Omit<Suggestion, 'inspectFirst' | 'action' | 'cautions' | 'cautionKinds' | 'inShort'> {
  readonly cautions: readonly Caution[];
  /** Of the first of `steps`: left out as soon as another comes before it. */
  readonly first?: FirstStep;
  /** What it begins with a look at: that is not asked for a second time. */
  readonly looksAt?: readonly LookedAtPlace[];
  /** Ends whose cog its beginning says to keep off, by whichever words: that is not said a second time. */
  readonly keepsOff?: readonly CassetteEnd[];
}

/** Where nothing is left to do but to ride: what the verdict does then. */
export const KEEP_RECORDING = 'Keep recording; the verdict is worked out again with every ride.';

/** A step that turns nothing and names no cause. */
export const nothingToTurn = (action: string, start: string, verify: string): Step => ({
  namesCause: false,
  parameter: 'none',
  steps: [action],
  start,
  verify,
  cautions: generalCautions,
});

/** How a ride is begun on what was not ridden yet. */
export const TRY_SOFTLY =
  'Try the shifts in question softly, away from traffic, before the next ride; stop at once if the chain leaves the cogs.';
