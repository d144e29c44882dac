import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import type { BikeDetail } from '../api/answers.ts';

/** What is the matter, in a few words to stand at the top. */
export function verdictHeadline({ bike, state, report }: Pick<BikeDetail, 'bike' | 'state' | 'report'>): string {
  if (state.underWay) return 'Its rides are still being worked through';
  if (!report || report.rides.length === 0) return 'No ride has been read yet';
  const tooFew = 'Too few judged shifts yet to say';
  if (state.word === 'too little data') return tooFew;
  const verdict = verdictOf(report);
  const [first, second] = verdict.causes.map(({ cause }) => causeWords(cause, bike.actuation).name);
  switch (verdict.kind) {
    case 'nothing-seen':
      return tooFew;
    case 'sound':
      return 'Nothing points to a mis-set part';
    case 'cured':
      return `${upperFirst(first)}: it seems cured`;
    case 'put-right':
      return 'Shifts well again: something seems to have been put right';
    case 'unnamed':
      return 'Too little evidence to name a part';
    case 'named':
      return upperFirst(first);
    case 'open':
      return `Open between ${first} and ${second}`;
  }
}
