import { sum } from 'd3-array';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import type { CogSkips } from '../report-schema.ts';
import { durationWords } from './number-words.ts';

/** Title of the chart and of its table. */
export const SKIPS_TITLE = 'Skips by cog';
/** What the rows count. */
export const SKIPS_MEANING =
  'A skip is the chain slipping over teeth under load: the sign of a worn chain and worn cogs. Most leave no mark in a log, so these are the ones seen.';
/** Titles of the table's columns. */
export const skipTitles = ['On cog', 'Skips seen', 'Pedalled', 'Skips an hour', '95 % range'] as const;

/** Skips by cog on the parts before a chain or cassette was replaced, and on those since. */
export interface SkipsBeforeAfter {
  readonly before: readonly CogSkips[];
  readonly after: readonly CogSkips[];
}

/** A rate over less pedalling than this says little, unless so many skips were seen. */
const FEW_MINUTES = 10;
const ENOUGH_SKIPS = 3;

/** Whether a cog was pedalled on too little for its rate to tell. */
export const isHardlyPedalled = ({ skips, pedallingS }: Pick<CogSkips, 'skips' | 'pedallingS'>): boolean =>
  pedallingS < FEW_MINUTES * 60 && skips < ENOUGH_SKIPS;

/** Whether any skip was seen on a known cog: else there is nothing to show by cog. */
export const anySkips = (cogs: readonly CogSkips[] | undefined): cogs is readonly CogSkips[] =>
  cogs?.some(({ skips }) => skips > 0) ?? false;

const perHour = (rate: number): string => (rate < 10 ? rate.toFixed(1) : figure(Math.round(rate)));

const pedalledWords = (seconds: number): string => (seconds < 60 ? 'under 1 min' : durationWords(seconds));

/** The row of a cog under `skipTitles`; a dash where it was pedalled on too little to tell. */
export function skipCells(cog: CogSkips): string[] {
  const { teeth, skips, pedallingS, perHour: rate, low, high } = cog;
  const rates =
    isHardlyPedalled(cog) || rate === null || low === null || high === null
      ? ['-', '-']
      : [perHour(rate), `${perHour(low)} to ${perHour(high)}`];
  return [String(teeth), figure(skips), pedallingS > 0 ? pedalledWords(pedallingS) : '-', ...rates];
}

/** "On 21 teeth: 9 skips in 3 h 05 min of pedalling, 2.9 an hour (1.3 to 5.5)". */
export function skipsOnCog(cog: CogSkips): string {
  const [teeth, , pedalled, rate, range] = skipCells(cog);
  const seen = cog.skips === 0 ? 'no skip' : counted(cog.skips, 'skip');
  const said = `On ${teeth} teeth: ${seen}`;
  if (cog.pedallingS === 0) return said;
  const told = isHardlyPedalled(cog) ? 'too little for a rate' : `${rate} an hour (${range})`;
  return `${said} in ${pedalled} of pedalling, ${told}`;
}

/** What the chart of skips by cog shows, in sentences, for those who do not see it: on which cog the chain surely skips most often for the time on it. */
export function describeSkipsByCog(cogs: readonly CogSkips[]): string {
  const all = sum(cogs, ({ skips }) => skips);
  if (all === 0) return 'No skip was seen.';
  const surely = (cog: CogSkips): number => (isHardlyPedalled(cog) ? -1 : (cog.low ?? 0));
  const skipping = cogs.filter(({ skips }) => skips > 0).sort((a, b) => surely(b) - surely(a) || b.skips - a.skips);
  const [first] = skipping;
  if (skipping.length === 1) return `${counted(all, 'skip')} seen. ${skipsOnCog(first)}.`;
  return `${counted(all, 'skip')} seen on ${skipping.length} cogs. For the time pedalled most often ${lowerFirst(skipsOnCog(first))}.`;
}

/** What the chart of skips before and after a new chain or cassette shows: where the chain still skips, or on which cog it did. */
export function describeSkipsBeforeAfter({ before, after }: SkipsBeforeAfter): string {
  const hasRidden = (cogs: readonly CogSkips[]): boolean => cogs.some(({ pedallingS }) => pedallingS > 0);
  if (!hasRidden(before)) return `Nothing was ridden before it. ${describeSkipsByCog(after)}`;
  if (!hasRidden(after)) return `Nothing was ridden after it yet. ${describeSkipsByCog(before)}`;
  return `Before: ${lowerFirst(describeSkipsByCog(before))} After: ${lowerFirst(describeSkipsByCog(after))}`;
}
