import { wilsonInterval } from '../numeric/wilson-interval.ts';
import type { TroubleCount } from './compare-rates.ts';

/** Where more than this share of the shifts goes wrong, for sure, they fail. An assumption of ours. */
const FAILS_ABOVE = 0.03;
/** Of fewer events nothing is said to fail. An assumption of ours. */
export const LEAST_TROUBLE = 3;

/** Whether some shifts fail, and did not go wrong by chance. */
export const failsForSure = ({ trouble, shifts }: TroubleCount): boolean =>
  trouble >= LEAST_TROUBLE && wilsonInterval(trouble, shifts).low > FAILS_ABOVE;
