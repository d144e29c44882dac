import { causeWords } from '../../diagnosis/cause-words.ts';
import type { CauseBar } from '../charts/cause-chart.ts';
import type { Report } from '../report-schema.ts';
import { whichCauses } from '../which-causes.ts';

/** The causes of what is wrong now with their names, likeliest first. */
export function causeBars({ diagnosis, bike }: Pick<Report, 'diagnosis' | 'bike'>): CauseBar[] {
  return whichCauses(diagnosis).now.causes.map(({ cause, probability }) => ({
    name: causeWords(cause, bike.actuation).name,
    probability,
    fault: cause !== 'no-fault',
  }));
}
