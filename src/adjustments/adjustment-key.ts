import type { Adjustment } from './adjustment.ts';

/** The same for two entries that say the same: one moment, part and amount; the notes beside them make no difference. */
export const adjustmentKey = ({ at, parameter, amount }: Pick<Adjustment, 'at' | 'parameter' | 'amount'>): string =>
  `${Date.parse(at)} ${parameter} ${amount}`;
