import { endWords, untriedWords } from '../../adjustments/end-cog-words.ts';
import { parameterName } from '../../adjustments/parameter-words.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import { curedBy } from '../now/cured-by.ts';
import type { LimitTrial } from '../now/limit-trial.ts';
import { isTurnable } from '../now/turned-towards.ts';
import { toldByHand } from '../told-by-hand.ts';
import { standsAlone } from '../what-leads.ts';
import { hangerIsSeenTo } from './after-look.ts';
import { hangerFirst as lookAtHanger, lowLimitWasTurned } from './hanger-first.ts';
import { nextStep } from './next-steps.ts';
import { notSettled } from './not-settled.ts';
import { KEEP_RECORDING, type Step, TRY_SOFTLY } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { leaveAsItIs } from './turn-nothing.ts';
import { undoesCure } from './undoes-cure.ts';
import { verifyNow } from './verify-now.ts';

/** The step where the last adjustment cured the fault, or nobody knows yet what it did. */
export function afterAdjusting(cause: Fault, facts: SuggestionFacts): Step {
  const { setting, since, trial } = facts.now;
  if (setting === 'cured') return cured(cause, facts);
  if (setting !== 'untested' || !since.last) return notSettled(cause, facts);
  return trial ? tryLimitFirst(cause, trial, facts) : rideFirst(cause, since.last, facts);
}

function cured(cause: Fault, facts: SuggestionFacts): Step {
  const known = standsAlone(facts.ranked, facts.undecided);
  return leaveAsItIs(
    `Leave it as it is: ${curedBy(facts.comparisons, [cause, ...(facts.undecided?.between ?? [])])} seems to have cured ${known ? causePhrase(cause, facts.electronic) : 'what was wrong'}.`,
    {
      verify: `${facts.now.skipping || facts.now.keepOff.size > 0 ? 'Of that nothing' : 'Nothing'} more needs to be tried: ${shownBy(facts)} ${KEEP_RECORDING}`,
      asks: 'nothing',
    },
    facts,
  );
}

/** What the rides since show of a cure. */
function shownBy({ now: { trial, since } }: SuggestionFacts): string {
  if (trial && trial.since.reached > 0 && trial.before.lost > 0)
    return `since then the chain stayed on in ${counted(trial.since.reached, 'judged shift')} onto the ${endWords[trial.end]} cog.`;
  const { trouble, shifts } = since.seen.all;
  return `since then ${figure(trouble)} of ${counted(shifts, 'judged shift')} went wrong.`;
}

/** What was done about a limit shows on its end cog alone, and nobody has been there since: on the stand first. */
function tryLimitFirst(cause: Fault, trial: LimitTrial, facts: SuggestionFacts): Step {
  const { electronic, now } = facts;
  const step = nextStep(cause, electronic);
  const cog = endWords[trial.end];
  const hangerFirst = trial.before.lost > 0 && now.keepOff.has(trial.end) && !hangerIsSeenTo(facts);
  const until = now.keepOff.has(trial.end) ? 'until the chain stays on there' : 'where it goes further';
  const tryIt = hangerFirst ? `${lookAtHanger(trial.end, lowLimitWasTurned(facts))} then try the limit` : 'Try it';
  // a limit that was turned back is turned in again first, and nothing of that was ridden
  const turnedBack = now.whereLost.some(({ end }) => end === trial.end);
  return {
    namesCause: true,
    parameter: step.parameter,
    looksAt: hangerFirst ? ['hanger', trial.end] : [trial.end],
    keepsOff: [trial.end],
    steps: [
      turnedBack
        ? `${tryIt} on a stand.`
        : `${tryIt} on a stand before anything more is turned: what was done about the limit shows on the ${cog} cog alone, and ${untriedWords(trial.since)}.`,
    ],
    start: `On a stand, turning the cranks by hand, shift onto the ${cog} cog. ${toldByHand(limitAt[trial.end].loose, electronic)} Keep off the ${cog} cog on any ride ${until}.`,
    verify: verifyNow(cause, facts),
    cautions: [...step.cautions, ...generalCautions],
  };
}

/** One thing at a time: what was turned last is ridden on before anything else is turned. */
function rideFirst(cause: Fault, untested: { at: string; parameter: string }, facts: SuggestionFacts): Step {
  const step = nextStep(cause, facts.electronic);
  const undone = isTurnable(cause) ? undoesCure(cause, facts) : null;
  return {
    namesCause: true,
    parameter: step.parameter,
    steps: [
      ...(undone ? [undone] : []),
      `${undone ? 'Then ride' : 'Ride'} before anything more is turned: no shift was judged yet after what was done on ${utcDay(untested.at)}: ${parameterName(untested.parameter)}.`,
    ],
    start: TRY_SOFTLY,
    verify: verifyNow(cause, facts),
    cautions: [...step.cautions, ...generalCautions],
  };
}
