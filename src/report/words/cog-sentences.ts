import { max, sum } from 'd3-array';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import { percent } from '../../numeric/percent.ts';
import { sureTimesWords } from '../../numeric/sure-times-words.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { BeforeAfterByCog, CogTrouble } from '../cog-trouble.ts';
import { bySurestTrouble } from '../surely-in-trouble.ts';

/** Where a shift in a direction comes from, to stand after the cog that it goes onto. */
export const directionPhrase: Readonly<Record<Direction, string>> = {
  'to-larger': 'from smaller cogs',
  'to-smaller': 'from larger cogs',
};

const onto = ({ teeth, direction }: CogTrouble): string => `onto ${teeth} teeth ${directionPhrase[direction]}`;
const share = ({ troubleRate, shifts }: CogTrouble): string =>
  shifts === 0 ? 'none judged' : `${percent(troubleRate ?? 0)} of ${shifts} judged`;
const count = ({ troubleRate, shifts }: CogTrouble): number => Math.round((troubleRate ?? 0) * shifts);

/** The cog and direction whose shifts surely go wrong most often; undefined where none do. */
const worst = (cogs: readonly CogTrouble[]): CogTrouble | undefined =>
  cogs.filter(({ troubleRate }) => (troubleRate ?? 0) > 0).sort(bySurestTrouble)[0];

/** Chains lost past a cog, the gravest that can happen, so said first; nothing where there are none. */
export function lostPastCogs(cogs: readonly CogTrouble[]): string[] {
  const past = cogs.flatMap(({ teeth, chainDrops = 0, sureChainDrops = chainDrops }) =>
    chainDrops > 0 ? [`past the ${teeth} (${sureTimesWords(chainDrops, sureChainDrops)})`] : [],
  );
  return past.length === 0 ? [] : [`Chain lost ${listed(past)}.`];
}

function mostTrouble(cogs: readonly CogTrouble[]): string {
  const enough = cogs.filter((cog) => cog.troubleRate !== null && cog.shifts >= SAY_LITTLE);
  if (enough.length === 0) return 'Too few judged shifts on any cog to tell.';
  const found = worst(enough);
  if (!found) return 'No trouble on any cog with enough judged shifts.';
  return `Most trouble: shifts ${onto(found)}, ${share(found)}.`;
}

/** Cogs with few shifts that went wrong more often than any with enough: they say little, but are in the picture. */
function faintSentence(cogs: readonly CogTrouble[]): string[] {
  const limit = max(cogs, ({ shifts, troubleRate }) => (shifts >= SAY_LITTLE ? troubleRate : null)) ?? 0;
  const found = worst(cogs.filter(({ shifts, troubleRate }) => shifts < SAY_LITTLE && (troubleRate ?? 0) > limit));
  return found ? [`Of few shifts: ${onto(found)} ${count(found)} of ${found.shifts} went wrong.`] : [];
}

function ghostSentence(cogs: readonly CogTrouble[]): string[] {
  const ghosts = cogs.filter(({ ghostShifts = 0 }) => ghostShifts > 0);
  if (ghosts.length === 0) return [];
  const teeth = [...new Set(ghosts.map((cog) => cog.teeth))].sort((a, b) => a - b);
  const all = sum(ghosts, ({ ghostShifts = 0 }) => ghostShifts);
  return [`${counted(all, 'ghost shift')}, onto ${listed(teeth.map(String))} teeth.`];
}

/** What the chart of trouble by cog shows, in sentences, for those who do not see it. */
export const describeTroubleByCog = (cogs: readonly CogTrouble[]): string =>
  [...lostPastCogs(cogs), mostTrouble(cogs), ...faintSentence(cogs), ...ghostSentence(cogs)].join(' ');

/** What the chart of before and after shows: where it was worst before and where it is worst after, each with the other time beside it. */
export function describeBeforeAfterByCog({ before, after }: BeforeAfterByCog): string {
  const same = (cogs: readonly CogTrouble[], { teeth, direction }: CogTrouble): string => {
    const found = cogs.find((cog) => cog.teeth === teeth && cog.direction === direction);
    return found ? share(found) : 'none judged';
  };
  const enough = (cogs: readonly CogTrouble[]) => worst(cogs.filter(({ shifts }) => shifts >= SAY_LITTLE));
  const [was, is] = [enough(before), enough(after)];
  const isNone = (cogs: readonly CogTrouble[]): boolean => cogs.every(({ shifts }) => shifts === 0);
  if (isNone(before)) return `No shift was judged before it. ${describeTroubleByCog(after)}`;
  if (isNone(after)) return `No shift was judged after it yet. ${describeTroubleByCog(before)}`;
  if (!was && !is) return 'No trouble before or after on any cog with enough judged shifts.';
  const sentences = [
    ...(was ? [`Worst before: ${onto(was)}, ${share(was)}; after: ${same(after, was)}.`] : []),
    ...(is && !(was && was.teeth === is.teeth && was.direction === is.direction)
      ? [`Worst after: ${onto(is)}, ${share(is)}; before: ${same(before, is)}.`]
      : []),
  ];
  return sentences.join(' ');
}
