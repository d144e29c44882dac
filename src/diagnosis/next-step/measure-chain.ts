import { figure } from '../../numeric/figure.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { timesWords } from '../../numeric/times-words.ts';
import type { SkippingNow } from '../now/skipping-now.ts';
import type { Work } from './in-order.ts';
import { nextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { lookBeyond } from './worn-parts.ts';

type Asked = Pick<SuggestionFacts, 'now' | 'ranked' | 'undecided' | 'seenTo' | 'electronic'>;

/** The look at the chain that a step that mends nothing does not pass over where the chain skips; empty where it does not, or wear is what the step is about. */
export function measureChain({ namesCause }: Step, facts: Asked): Work[] {
  const { now, ranked, undecided, seenTo, electronic } = facts;
  const weighed = [ranked[0].cause, ...(undecided?.between ?? [])];
  if (namesCause || !now.skipping || weighed.includes('worn-drivetrain')) return [];
  const { start, cautions, parameter } = nextStep('worn-drivetrain', electronic);
  const parts = seenTo.map((look) => look.parameter);
  const look = parts.includes('chain') ? lookBeyond(parts) : 'Measure the chain with a chain checker.';
  const since = now.since.last ? ` since ${utcDay(now.since.last.at)}` : '';
  return [
    {
      step: `${look.replace(/\.$/, '')}: it skipped ${timesWords(now.skipping.skips)}${since}${inNewest(now.skipping)}.`,
      ...{ start, cautions, parameter },
    },
  ];
}

function inNewest({ skips, inNewest: newest }: SkippingNow): string {
  if (newest === null) return '';
  return newest === skips ? ', all in the newest ride' : `, ${figure(newest)} of them in the newest ride`;
}
