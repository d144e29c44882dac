import { type CassetteEnd, cassetteEnds } from '../adjustments/end-cog-count.ts';
import type { Cause } from './causes.ts';

/** The limit screw that stops the derailleur at an end of the cassette, and its two faults. */
interface EndLimit {
  /** The limit lets the chain past the end cog. */
  readonly loose: 'low-limit-loose' | 'high-limit-loose';
  /** The limit keeps the chain from the end cog, and is opened to mend that. */
  readonly tight: 'low-limit-tight' | 'high-limit-tight';
  readonly screw: string;
  readonly parameter: 'low-limit' | 'high-limit';
}

/** The one table of the cassette's ends. */
export const limitAt: Readonly<Record<CassetteEnd, EndLimit>> = {
  'past-largest': {
    loose: 'low-limit-loose',
    tight: 'low-limit-tight',
    screw: 'low limit screw',
    parameter: 'low-limit',
  },
  'past-smallest': {
    loose: 'high-limit-loose',
    tight: 'high-limit-tight',
    screw: 'high limit screw',
    parameter: 'high-limit',
  },
};

const endWhere = (holds: (limit: EndLimit) => boolean): CassetteEnd | null =>
  cassetteEnds.find((end) => holds(limitAt[end])) ?? null;

/** The end cog at which a cause shows alone; null for one that is no limit screw's. */
export const endOfLimit = (cause: Cause): CassetteEnd | null =>
  endWhere(({ loose, tight }) => loose === cause || tight === cause);

/** True for a limit that lets the chain past its end cog. */
export const isLoose = (cause: Cause): boolean => endWhere(({ loose }) => loose === cause) !== null;

/** The ends whose limit the step for a cause looks at before it is turned: that of a loose one. */
export const endsLookedAt = (cause: Cause): readonly CassetteEnd[] =>
  cassetteEnds.filter((end) => limitAt[end].loose === cause);

/** The end whose limit is opened to mend a cause; null where none is. */
export const endOpenedFor = (cause: Cause): CassetteEnd | null => endWhere(({ tight }) => tight === cause);
