import type { BikeSummary } from '../api/answers.ts';

/** Whether a bike is to be looked over before anybody rides it, whatever its state is otherwise: something is known of it that can hurt. */
export const looksFirst = ({ underWay, dangers }: Pick<BikeSummary['state'], 'underWay' | 'dangers'>): boolean =>
  !underWay && dangers.length > 0;
