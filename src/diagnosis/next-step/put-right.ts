import { utcDay } from '../../numeric/moment-words.ts';
import { causePhrase } from '../cause-words.ts';
import type { ShiftsWellSince } from '../diagnosis.ts';
import { gotBetterWith, rightWayBefore } from '../now/got-better.ts';
import { notRiddenSentence } from '../now/not-ridden-on.ts';
import { notShownWords, wellWords } from '../now/not-shown-words.ts';
import { KEEP_RECORDING, nothingToTurn, type Step, TRY_SOFTLY } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { keepRecording, leaveAsItIs, turnNothing } from './turn-nothing.ts';

/**
 * The newest rides decide whether anything is turned: what was wrong before them does not show now. How far an adjuster reaches differs from bike to
 * bike, so an entry of the right part and sign is not called too small for what became of it. What was done after them is said to be open.
 */
export function putRight(since: ShiftsWellSince, facts: Asked): Step {
  const told = byNewestRides(since, facts);
  const open = notRiddenSentence(facts.comparisons, since.at);
  if (!open) return told;
  const { steps, start, asks: _, ...step } = told;
  return { ...step, steps: steps.map((one) => one + open), start: start && `${start} ${TRY_SOFTLY}` };
}

type Asked = Pick<SuggestionFacts, 'now' | 'comparisons' | 'ranked' | 'electronic'>;

function byNewestRides(since: ShiftsWellSince, facts: Asked): Step {
  const { entryAt, adjusted } = since;
  const [{ cause }] = facts.ranked;
  const better = entryAt || !adjusted ? null : gotBetterWith(facts.comparisons, cause, since.at);
  const nothing = turnNothing(facts);
  // why a bike that shifts well is left alone its state's reasons say
  const first = { inShort: `${nothing}.` };
  if (!since.putRight) {
    // a wrong turn that was taken back left no fault to name, but it was seen to go wrong
    const before = better?.last ? `it got better with ${better.words}` : 'before it no fault was sure';
    const why = `since the ride of ${utcDay(since.at)} the bike shifts well (${wellWords(since)}), and ${before}`;
    return { ...leaveAsItIs(`${nothing}: ${why}.`, keepRecording, facts), first };
  }
  if (better?.last) {
    const cure = better.usualCure
      ? 'If that was not all'
      : `What was done is not the usual cure for ${causePhrase(cause, facts.electronic)}`;
    return mayComeBack(
      nothing,
      `${notShownWords(since)}, and it got better with ${better.words}`,
      `Ride before anything more is turned. ${cure}: check its part, amount and sign, and log whatever else was done.`,
      KEEP_RECORDING,
    );
  }
  if (entryAt) {
    const why = `since what was logged on ${utcDay(entryAt)} the bike shifts well (${wellWords(since)})`;
    return { ...leaveAsItIs(`${nothing}: ${why}.`, { verify: BY_RIDE_AND_ENTRY, asks: 'nothing' }, facts), first };
  }
  const helped = rightWayBefore(facts.comparisons, cause, since);
  if (helped) {
    const why = `${notShownWords(since)}, and what went before it was the right way: it got better with ${helped.words}`;
    return { ...nothingToTurn(`${nothing}: ${why}.`, GO_ON, KEEP_RECORDING), first };
  }
  return mayComeBack(nothing, notShownWords(since), adjusted ? OTHER_WORK : UNLOGGED, BY_RIDE_AND_ENTRY);
}

/** Of trouble that did not show of late, and that nothing logged is known to have ended. */
const mayComeBack = (nothing: string, why: string, start: string, verify: string): Step => ({
  ...nothingToTurn(`${nothing}: ${why}. It may come back.`, start, verify),
  first: { inShort: `${nothing}. It may come back.` },
});

const BY_RIDE_AND_ENTRY = 'Keep recording; the verdict is worked out again with every ride and every entry.';

const GO_ON =
  'Ride before anything more is turned. If shifts go on failing so now and then, go on the same way, a little at a time.';

const UNLOGGED =
  'If something was adjusted, aligned or replaced before that ride, log what and when: the rides are then weighed with it.';

const OTHER_WORK =
  'What is logged before that ride does not account for it: check its part, amount and sign, and log whatever else was done.';
