import { canBring } from '../likelihood/onset-options.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { toldByHand } from '../told-by-hand.ts';
import { hangerIsSeenTo } from './after-look.ts';
import { easeOffBefore } from './ease-off.ts';
import { inOrder, type Work } from './in-order.ts';
import { lookAtLimits, tryOnStand } from './look-at-limit.ts';
import { lookAtNewPart } from './look-at-new-part.ts';
import { lookWhyBack } from './look-why-back.ts';
import { measureChain } from './measure-chain.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { type TakenBack, takeBack } from './take-back.ts';

/**
 * The step with all that is done before and after it, whatever is named, in one order: a limit that was opened and past which a chain was
 * lost is screwed in again; a part that trouble came with is looked over; a limit past which a chain was lost is looked at; where soft
 * legs shift well they come before any part; what made it worse is taken back; what did not last is looked into; the hanger is checked where it began suddenly; the chain is measured where it skips. A bent hanger comes before the limits,
 * which it carries along, and what is mended by parts before anything else is taken back.
 */
export function withOtherWork(alone: Step, facts: SuggestionFacts): Step {
  const taken = takeBack(alone, facts);
  const takenBack = (place: TakenBack['place']): Work[] => (taken?.place === place ? [taken.work] : []);
  const own = taken?.own ?? alone;
  const toLookAt = [...facts.now.keepOff].filter((end) => !own.looksAt?.includes(end));
  const bent = seesToHanger(own, facts);
  const limits = lookAtLimits(toLookAt, facts, !bent);
  const limitsFirst = bent ? [] : limits;
  const newPart = lookAtNewPart(facts);
  // a part that the trouble came with is reason enough for a sudden beginning
  const asksForHanger = limits.length + newPart.length === 0 && taken?.goesOn !== false;
  const hanger = asksForHanger ? checkHanger(own, facts) : [];
  const before = [
    ...takenBack('at-once'),
    ...newPart,
    ...limitsFirst,
    ...easeOffBefore(own, facts),
    ...takenBack('before'),
    ...lookWhyBack(facts),
    ...hanger,
    ...(own.start === '' && limits.length === 0 ? tryOnStand(toLookAt) : []),
    ...measureChain(own, facts),
  ];
  const looksFirst = own.parameter === 'none' ? limitsFirst[0]?.parameter : undefined;
  const step = inOrder(limitsFirst.length + hanger.length > 0 ? afterHanger(own) : own, {
    before,
    amid: bent ? limits : [],
    after: takenBack('after'),
  });
  return looksFirst ? { ...step, looksFirst } : step;
}

type Asked = Pick<SuggestionFacts, 'ranked' | 'onset' | 'now' | 'electronic' | 'seenTo' | 'comparisons'>;

/** Whether the step itself has a bent hanger seen to. */
const seesToHanger = ({ namesCause }: Step, { ranked, now }: Asked): boolean =>
  namesCause && ranked[0].cause === 'hanger-bent' && now.setting === 'same';

/** Whether the fault began with the first ride after something was turned that can bring it about: that is reason enough. */
const cameWithTurn = ({ ranked: [{ cause }], onset: { at, rideBeforeAt }, comparisons }: Asked): boolean =>
  at !== null &&
  rideBeforeAt !== null &&
  comparisons.some(
    (one) =>
      one.amount &&
      canBring(cause, one.parameter) &&
      Date.parse(one.at) > Date.parse(rideBeforeAt) &&
      Date.parse(one.at) <= Date.parse(at),
  );

/** What begins suddenly is often a hanger that was bent; none where the step looks at it by itself, is no step for a fault that is there, or something was turned that explains it. */
function checkHanger({ namesCause, looksAt }: Step, facts: Asked): Work[] {
  const { ranked, onset, now, electronic } = facts;
  const isFault = namesCause && now.setting === 'same' && ranked[0].cause !== 'hanger-bent';
  if (!isFault || looksAt?.includes('hanger') || !beganSuddenly(onset) || hangerIsSeenTo(facts)) return [];
  if (cameWithTurn(facts)) return [];
  const look = toldByHand('hanger-bent', electronic);
  return [
    {
      step: `Look for damage and have the hanger checked, since it began suddenly. ${look}`,
      start: 'Do it before anything is turned.',
    },
  ];
}

/** The step where its hanger is looked at before it. */
const afterHanger = (step: Step): Step =>
  step.first?.afterHanger === undefined ? step : { ...step, steps: [step.first.afterHanger, ...step.steps.slice(1)] };
