import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { isSound, namedAlone, namesNone, seemsCured } from '../../src/report/words/seems-cured.ts';
import type { BikeDetail } from '../api/answers.ts';
import { upperFirst } from '../words/upper-first.ts';

/** What is the matter, in a few words to stand at the top. */
export function verdictHeadline({ bike, state, report }: Pick<BikeDetail, 'bike' | 'state' | 'report'>): string {
  if (!report || report.rides.length === 0) return 'No ride has been read yet';
  if (state.word === 'too little data') return 'Too few judged shifts yet to say';
  const { causes, undecided } = report.diagnosis;
  const name = (rank: number): string => causeWords(causes[rank].cause, bike.actuation).name;
  if (isSound(report.diagnosis)) return 'Nothing points to a mis-set part';
  if (seemsCured(report)) return `${upperFirst(name(0))}: it seems cured`;
  if (namesNone(report)) return 'Too little evidence to name a part';
  if (causes[0].probability >= namedAlone && !undecided) return upperFirst(name(0));
  return `Open between ${name(0)} and ${name(1)}`;
}
