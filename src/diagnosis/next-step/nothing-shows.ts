import { figure } from '../../numeric/figure.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import { nothingWentWrong } from '../observed.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { tryEndCogs } from './try-end-cogs.ts';
import { leaveAsItIs, leaveEverything } from './turn-nothing.ts';

/** A fault less likely than this share of that nothing is wrong is not near it. An assumption of ours. */
const NEAR = 1 / 3;

/**
 * Whether nothing at all went wrong, however likely faults that would hardly show are taken to be beforehand, or hardly anything and no fault is near: then a bike is left as it is whether that none is there is likelier than not
 * or just less, for the figures are as good as the same.
 */
export const hardlyAnythingShows = ({ ranked, seen }: Pick<SuggestionFacts, 'ranked' | 'seen'>): boolean =>
  nothingWentWrong(seen) || (shiftsWell(seen) && (ranked[1]?.probability ?? 0) < NEAR * ranked[0].probability);

/** Nothing went wrong, or next to nothing, and too little was ridden to be sure that nothing would. Whatever would tell more is an offer. */
export const nothingShows = (facts: SuggestionFacts): Step =>
  leaveAsItIs(
    `${nothingWentWrong(facts.seen) ? 'Nothing' : 'Hardly anything'} shows: ${figure(facts.seen.all.trouble)} of ${figure(facts.seen.all.shifts)} judged shifts went wrong. ${leaveEverything(facts)}`,
    facts.checkRide.sentences.length > 0
      ? {
          verify:
            'Keep recording, or ride the check ride if you want to know sooner; the verdict is worked out again with every ride.',
          asks: 'shifts',
        }
      : tryEndCogs(facts),
    facts,
  );
