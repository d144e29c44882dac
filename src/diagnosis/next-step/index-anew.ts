import { standingHarm } from '../../adjustments/standing-harm.ts';
import { turningWays } from '../../adjustments/turning-words.ts';
import { counted } from '../../numeric/counted.ts';
import { suddenStartMs } from '../posterior/onset.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/**
 * Clicks that were turned against a cable that sticks are no measure of the tension: once it runs freely the indexing is set anew. None where none were
 * turned, all in all, since it began to stick and since it was last replaced, or where they made it worse for sure and are taken back.
 */
export function indexAnew({
  comparisons,
  onset,
  now,
}: Pick<SuggestionFacts, 'comparisons' | 'onset' | 'now'>): readonly string[] {
  const harm = now.setting === 'overdone' ? [] : standingHarm(comparisons);
  if (harm.some(({ parameter }) => parameter === 'cable-tension')) return [];
  const fromMs = suddenStartMs(onset);
  const replaced = comparisons.findLastIndex(({ parameter }) => parameter === 'cable-and-housing');
  const turned = comparisons
    .slice(replaced + 1)
    .filter(
      ({ parameter, before, at }) => parameter === 'cable-tension' && before.shifts > 0 && Date.parse(at) >= fromMs,
    );
  const amount = turned.reduce((sum, one) => sum + (one.amount ?? 0), 0);
  const ways = turningWays('cable-tension');
  if (amount === 0 || !ways) return [];
  const size = Math.abs(amount);
  const clicks = `${counted(size, 'click')} ${amount > 0 ? ways.plus : ways.minus}`;
  return [
    `Then index anew on a stand, one click at a time, until both directions run alike: the ${clicks} logged so far ${size === 1 ? 'was' : 'were'} turned while the cable stuck.`,
  ];
}
