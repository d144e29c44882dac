/** Fewer judged shifts than this name no part, unless the verdict is all but sure. An assumption of ours. */
export const FEWEST_SHIFTS = 30;
