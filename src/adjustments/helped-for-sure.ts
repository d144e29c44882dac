import { DECIDED_AT } from './compare-rates.ts';

/** As much of an adjustment's comparison as tells whether it helped: also one from a report. */
interface Compared {
  readonly probabilityBetter: number;
  readonly together?: { readonly probabilityBetter: number } | null;
  readonly cameBack?: object | null;
  readonly oppositeWays?: object | null;
}

/** Whether an adjustment, with the turns the same way before it, made shifting better for sure: then there was something to mend. */
export const helpedForSure = ({ probabilityBetter, together, cameBack, oppositeWays }: Compared): boolean =>
  (together ?? { probabilityBetter }).probabilityBetter >= DECIDED_AT && !cameBack && !oppositeWays;

/** Whether what was done last and not taken back did: it mended something, whatever assumption it hangs on which fault that was. */
export const lastHelpedForSure = (made: readonly (Compared & { readonly cancelledOut?: boolean })[]): boolean =>
  made
    .filter(({ cancelledOut }) => !cancelledOut)
    .slice(-1)
    .some(helpedForSure);
