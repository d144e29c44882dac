/** Fewer judged shifts than this on a cog say little by themselves; tables and charts say so. An assumption of ours. */
export const FEW_SHIFTS = 5;
