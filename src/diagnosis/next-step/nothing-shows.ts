import { figure } from '../../numeric/figure.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { tryEndCogs } from './try-end-cogs.ts';
import { leaveEverything, nothingNeedsTurning } from './turn-nothing.ts';

/** Whether nothing at all went wrong: then no work is asked for, however likely faults that would hardly show are taken to be beforehand. */
export const nothingWentWrong = ({ seen }: Pick<SuggestionFacts, 'seen'>): boolean =>
  seen.all.trouble + seen.events === 0;

/** Nothing went wrong, and too little was ridden to be sure that nothing would. Whatever would tell more is an offer. */
export const nothingShows = (facts: SuggestionFacts): Step =>
  nothingToTurn(
    `Nothing shows: 0 of ${figure(facts.seen.all.shifts)} judged shifts went wrong. ${leaveEverything(facts)}`,
    nothingNeedsTurning(facts),
    facts.checkRide.sentences.length > 0
      ? 'Keep recording, or ride the check ride if you want to know sooner; the verdict is worked out again with every ride.'
      : tryEndCogs(facts),
  );
