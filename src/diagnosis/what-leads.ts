import type { Cause } from './causes.ts';
import { LIKELY_ENOUGH, NAMED_ALONE } from './verdict-limits.ts';

/** Causes, likeliest first: of a diagnosis, or of a report. */
type Ranked = readonly { readonly cause: Cause; readonly probability: number }[];

/** Between which two causes an assumption turns the verdict; null where none does. */
type Undecided = { readonly between: readonly Cause[] } | null;

/** Whether a bike in order is likelier than any one fault. */
export const noneLeads = ([first]: Ranked): boolean => first.cause === 'no-fault';

/** Whether that is likely enough to leave the bike as it is, as far as no assumption turns it. */
export const noneIsLikely = (ranked: Ranked): boolean => noneLeads(ranked) && ranked[0].probability >= LIKELY_ENOUGH;

/** Whether it hangs on an assumption whether there is a fault at all. */
export const hangsWhetherFault = (undecided: Undecided): boolean => undecided?.between.includes('no-fault') ?? false;

/** Whether the likeliest cause is named alone: likely enough, and no assumption turns it. */
export const standsAlone = ([first]: Ranked, undecided: Undecided): boolean =>
  first.probability >= NAMED_ALONE && !undecided;
