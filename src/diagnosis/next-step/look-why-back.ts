import type { Adjustment } from '../../adjustments/adjustment.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { touches } from '../sentences/touches.ts';
import type { Work } from './in-order.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/** What lets a setting wander back by itself. Common practice in the trade, no source. */
const wanders: Readonly<Partial<Record<Adjustment['parameter'], string>>> = {
  'cable-tension':
    'whether the cable slips in its clamp, a strand of it is broken, or an end of the housing has settled or split',
  'index-offset': 'whether derailleur, hanger and rear wheel sit tight',
  'pulley-gap': 'whether the B-screw turns by itself',
  hanger: 'whether the hanger sits tight or is cracked',
  'cable-and-housing': 'whether the new cable slips in its clamp or the new housing has settled',
};

/** Where trouble came back by itself after an adjustment had taken it away, the reason is looked for before the same is done again; empty where it did not. */
export function lookWhyBack({ comparisons, ranked, now }: SuggestionFacts): Work[] {
  const last = comparisons.at(-1);
  const look = last?.cameBack && now.setting === 'same' ? wanders[last.parameter] : undefined;
  if (!last || !look || !touches(ranked[0].cause, last.parameter)) return [];
  return [
    {
      step: `Look ${look}: the trouble was gone after what was done on ${utcDay(last.at)}, and came back by itself.`,
      start: 'Look before the same is turned again.',
    },
  ];
}
