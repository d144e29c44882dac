/** Below this probability the likeliest cause is not named alone. An assumption of ours. */
export const NAMED_ALONE = 0.6;
