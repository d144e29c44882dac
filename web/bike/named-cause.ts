import { failsUnderLoadAlone } from '../../src/report/verdict-kind.ts';
import type { BikeDetail } from '../api/answers.ts';

type NamedCause = NonNullable<BikeDetail['report']>['diagnosis']['causes'][number];

/** The likeliest cause where the page says how likely it is: a cause can be named and yet have nothing to turn, and one that is gone is not what is wrong now. */
export function namedCause({ state, report }: Pick<BikeDetail, 'state' | 'report'>): NamedCause | null {
  if (!report || state.word === 'too little data') return null;
  const { causes, suggestion, now, heldBack, unexplained } = report.diagnosis;
  if (heldBack) return null;
  if (['overdone', 'another', 'unsettled'].includes(now.setting)) return null;
  if ((causes[0].cause === 'no-fault' && unexplained) || failsUnderLoadAlone(report)) return null;
  return suggestion.namesCause || causes[0].cause === 'no-fault' ? causes[0] : null;
}
