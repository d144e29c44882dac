import { cleanOrLate } from './turn-chances.ts';

/** Of shifts that went straight to another cog than the commanded one, the share that took the turns of a clean one (assumption of ours). */
const AS_CLEAN_SHARE = 0.7;

/** Chances of the turns of a shift that went straight to another cog than the commanded one; the others take those of a late one. */
export const elsewhereDensity: Float64Array = cleanOrLate(AS_CLEAN_SHARE);
