import { figure } from '../numeric/figure.ts';
import { listed } from '../numeric/listed.ts';
import { utcMoment } from '../numeric/moment-words.ts';
import { percent } from '../numeric/percent.ts';
import type { TroubleCount } from './compare-rates.ts';
import type { ShiftsPart } from './opposite-ways.ts';

/** A part of the shifts as it is put into words; `teeth`: its cogs that failed, left out where they are not named. */
interface ToldPart {
  readonly part: ShiftsPart;
  readonly teeth?: readonly number[];
  readonly before: TroubleCount;
  readonly after: TroubleCount;
}

const partNames: Readonly<Record<ShiftsPart, string>> = {
  'to-larger': 'shifts to larger cogs',
  'to-smaller': 'shifts to smaller cogs',
  'larger-cogs': 'shifts onto the larger cogs',
  'smaller-cogs': 'shifts onto the smaller cogs',
};

const share = ({ trouble, shifts }: TroubleCount): string => percent(trouble / Math.max(1, shifts));
const wrong = ({ trouble, shifts }: TroubleCount): string => `${figure(trouble)} of ${figure(shifts)}`;

function partWords({ part, teeth, before, after }: ToldPart): string {
  const onto = teeth ? `${part.startsWith('to-') ? ' onto the' : ', the'} ${listed(teeth)}` : '';
  return `${partNames[part]}${onto} (${wrong(before)} went wrong before, ${wrong(after)} after)`;
}

/**
 * What an adjustment did to two parts of the shifts.
 *
 * @example 'better for shifts to larger cogs onto the 45 and 51 (18 of 23 went wrong before, 4 of 10 after), worse for shifts ...'
 */
export const oppositeWords = ({ better, worse }: { readonly better: ToldPart; readonly worse: ToldPart }): string =>
  `better for ${partWords(better)}, worse for ${partWords(worse)}`;

/** The same without the counts: "better for shifts to larger cogs, worse for shifts to smaller cogs". */
export const oppositeInShort = ({
  better,
  worse,
}: Readonly<Record<'better' | 'worse', Pick<ToldPart, 'part'>>>): string =>
  `better for ${partNames[better.part]}, worse for ${partNames[worse.part]}`;

/** Trouble that was away for a while; `at`: ISO time of the ride with which it was back. */
interface ToldReturn {
  readonly at: string;
  readonly until: TroubleCount;
  readonly since: TroubleCount;
}

/** "the trouble went away for a while (0 of 140 shifts went wrong) and came back with the ride of 2026-09-13 07:00 UTC (52 of 276 since)". */
export const cameBackWords = ({ at, until, since }: ToldReturn): string =>
  `the trouble went away for a while (${wrong(until)} shifts went wrong) and came back with the ride of ${utcMoment(at)} (${wrong(since)} since)`;

/** The rides at both ends of a growth, and beside the adjustment in its midst. */
interface ToldGrowth {
  readonly firstBefore: TroubleCount;
  readonly lastBefore: TroubleCount;
  readonly firstAfter: TroubleCount;
  readonly lastAfter: TroubleCount;
}

/** "trouble grew ride by ride before (0 % in the first, 13 % in the last) and went on growing after (15 % in the first, 21 % in the last)". */
export function growthWords({ firstBefore, lastBefore, firstAfter, lastAfter }: ToldGrowth): string {
  const one = firstAfter.shifts === lastAfter.shifts && firstAfter.trouble === lastAfter.trouble;
  const after = one ? `(${share(firstAfter)})` : `(${share(firstAfter)} in the first, ${share(lastAfter)} in the last)`;
  return `trouble grew ride by ride before (${share(firstBefore)} in the first, ${share(lastBefore)} in the last) and went on growing after ${after}`;
}
