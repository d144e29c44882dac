import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { type NothingToJudge, nothingToJudge } from '../../src/report/nothing-to-judge.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { noneStandsOut, verdictOf, wasOneCause } from '../../src/report/verdict-kind.ts';
import { anotherNow, lostSince } from '../../src/report/words/another-fault.ts';
import { firstIsThereStill, tooFarWords } from '../../src/report/words/overdone-sentence.ts';
import type { BikeDetail } from '../api/answers.ts';

const nothingPoints = 'Nothing points to a mis-set part';

const LIMIT_OR_HANGER = 'Chain past the largest cog: low limit or hanger';

const noneToJudge: Readonly<Record<NothingToJudge, string>> = {
  'no-gear-changes': 'No gear changes were recorded',
  'no-cadence': 'No cadence was recorded',
  'too-short': 'Too little pedalling to show where the chain was',
  'no-chain-seen': 'Nothing shows where the chain was',
};

/** A chain that was lost goes before any name. */
function anotherHeadline({ diagnosis }: NonNullable<BikeDetail['report']>, { actuation }: BikeDetail['bike']): string {
  const names = anotherNow(diagnosis).map(({ cause }) => causeWords(cause, actuation).name);
  const named = names.length > 1 ? `open between ${names.join(' and ')}` : names[0];
  const lost = lostSince(diagnosis);
  return lost ? `Since the last adjustment ${lost}: ${named}` : `Since the last adjustment: ${named}`;
}

type Shown = Pick<BikeDetail, 'bike' | 'state' | 'report' | 'pending'>;

/** What is the matter, in a few words to stand at the top. */
export function verdictHeadline({ bike, state, report, pending }: Shown): string {
  if (state.underWay) return 'Its rides are still being worked through';
  if (!report || report.rides.length === 0)
    return pending > 0 ? 'Its rides are being worked through again' : 'No ride has been read yet';
  if (report.diagnosis.heldBack) return report.diagnosis.heldBack.headline;
  const nothing = state.judgedShifts === 0 ? nothingToJudge(ridesThatCount(report)) : null;
  const tooFew = nothing ? noneToJudge[nothing] : 'Too few judged shifts yet to say';
  const verdict = verdictOf(report);
  if (state.word === 'too little data' && verdict.kind !== 'overdone') return tooFew;
  const now = causeWords(report.diagnosis.now.fault, bike.actuation).name;
  const [first, second] = verdict.causes.map(({ cause }) => causeWords(cause, bike.actuation).name);
  switch (verdict.kind) {
    case 'nothing-seen':
      return tooFew;
    case 'sound':
      return nothingPoints;
    case 'unexplained':
      return upperFirst(`${report.diagnosis.unexplained?.where} go wrong, and no cause explains it`);
    case 'under-load':
      return 'Shifts fail under hard pedalling alone';
    case 'cured':
      if (report.diagnosis.laterCured) return 'Two faults one after the other: both seem cured';
      return wasOneCause(report) ? `${upperFirst(first)}: it seems cured` : 'Shifts well since the last adjustment';
    case 'overdone':
      return firstIsThereStill(report.diagnosis)
        ? `${upperFirst(first)}, and ${tooFarWords(report.diagnosis)}`
        : upperFirst(`${tooFarWords(report.diagnosis)}: ${now}`);
    case 'another':
      return anotherHeadline(report, bike);
    case 'unsettled':
      return `${upperFirst(first)}: not known yet whether it is cured`;
    case 'put-right':
      return 'Shifts well since it was adjusted';
    case 'not-shown':
      return 'Hardly any trouble in the newest rides';
    case 'unnamed':
      if (report.diagnosis.failsOnto)
        return `Shifts onto the ${report.diagnosis.failsOnto} fail: which part it is is open`;
      return report.diagnosis.limitOrHanger ? LIMIT_OR_HANGER : 'Too little evidence to name a part';
    case 'named':
      return report.diagnosis.limitOrHanger ? LIMIT_OR_HANGER : upperFirst(first);
    case 'open':
      if (noneStandsOut(verdict, report)) return 'No fault stands out';
      return `Open between ${first} and ${second}`;
  }
}
