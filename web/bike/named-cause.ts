import type { BikeDetail } from '../api/answers.ts';

type NamedCause = NonNullable<BikeDetail['report']>['diagnosis']['causes'][number];

/** The likeliest cause where the page says how likely it is: a cause can be named and yet have nothing to turn. */
export function namedCause({ state, report }: Pick<BikeDetail, 'state' | 'report'>): NamedCause | null {
  if (!report || state.word === 'too little data') return null;
  const { causes, suggestion } = report.diagnosis;
  return suggestion.namesCause || causes[0].cause === 'no-fault' ? causes[0] : null;
}
