/** Fewer judged shifts than this name no part, unless the verdict is all but sure. An assumption of ours. */
export const FEWEST_SHIFTS = 30;
/** Fewer shifts than this onto a cog say little of it by themselves; sentences, tables and charts say so. An assumption of ours. */
export const SAY_LITTLE = 5;
