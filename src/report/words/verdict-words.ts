import { sum } from 'd3-array';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { causeWords } from '../../diagnosis/cause-words.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { curedBy } from '../../diagnosis/now/cured-by.ts';
import { notShownWords } from '../../diagnosis/now/not-shown-words.ts';
import { EXPLAINED_FROM } from '../../diagnosis/verdict-limits.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { listed } from '../../numeric/listed.ts';
import { percent } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { showsNothing } from '../shows-nothing.ts';
import { noneStandsOut, type Verdict, verdictOf, wasOneCause } from '../verdict-kind.ts';
import { holdNoGearChanges } from '../without-gear-records.ts';
import { anotherNow, anotherSentence } from './another-fault.ts';
import { ifOneFault } from './if-one-fault.ts';

/** As much of a report as the verdict's words are made of. */
type SpokenOf = Pick<Report, 'bike' | 'diagnosis' | 'adjustments'> & {
  readonly rides?: readonly Pick<Report['rides'][number], 'gearSource' | 'leftOut'>[];
  readonly cogs?: Report['cogs'];
};

/**
 * The causes worth explaining, likeliest first, each with the evidence not said above it: one that has none is named with its
 * probability among the others (`otherCauses`). None where the rides show nothing.
 */
export function explainedCauses(report: Report): Report['diagnosis']['causes'] {
  if (showsNothing(report)) return [];
  // what nobody can name was not what is wrong now: the probabilities will do
  if (report.diagnosis.now.setting === 'overdone') return wasOneCause(report) ? [report.diagnosis.causes[0]] : [];
  return explained(report.diagnosis.causes).filter(({ evidence }, i) => i === 0 || evidence.length > 0);
}

/** The causes that the rides since the last adjustment alone are worth explaining by, each with its evidence; none where they name no other fault than all rides do. */
export const explainedSince = ({
  diagnosis: { anotherSince },
}: Pick<Report, 'diagnosis'>): Report['diagnosis']['causes'] => (anotherSince ? explained(anotherSince.causes) : []);

function explained(causes: Report['diagnosis']['causes']): Report['diagnosis']['causes'] {
  const said = new Set<string>();
  return causes
    .filter(({ probability }, i) => i === 0 || probability >= EXPLAINED_FROM)
    .map((verdict) => {
      const evidence = verdict.evidence.filter((sentence) => !said.has(sentence));
      for (const sentence of evidence) said.add(sentence);
      return { ...verdict, evidence };
    });
}

/** Even rides without a judged shift say a little: that no chain was lost, or how the rider answered a shift. */
function nothingSeenSentence({ diagnosis, rides: listed = [] }: SpokenOf): string {
  if (diagnosis.heldBack) return diagnosis.heldBack.sentence;
  const { rides, weakShifts } = diagnosis.weighed;
  if (holdNoGearChanges(ridesThatCount({ rides: listed })))
    return rides === 0
      ? 'These rides hold no gear changes and show no gears, so nothing speaks for or against any part.'
      : 'These rides hold no gear changes, so no shift can be judged; nothing else was seen to go wrong, which says little for or against any part.';
  if (rides === 0) return 'No ride could be weighed, so nothing speaks for or against any part.';
  if (weakShifts > 0)
    return `No shift could be judged: of ${counted(weakShifts, 'shift')} only the rider's answer is known, which says little for or against any part.`;
  return 'No shift could be judged and nothing was seen to go wrong, which says little for or against any part.';
}

/** What keeps a bike whose shifts went well from being surer: end cogs that were hardly used, to append; empty where none were. */
function hardlyTried({ bike: { cassette }, cogs = [] }: SpokenOf): string {
  const judged = [cassette.at(-1), cassette[0]].map((teeth) => ({
    teeth,
    shifts: sum(
      cogs.filter((cog) => cog.teeth === teeth),
      ({ shifts }) => shifts,
    ),
  }));
  const few = judged.filter(({ shifts }) => cogs.length > 0 && shifts < SAY_LITTLE);
  const words = few.map(({ teeth, shifts }) =>
    shifts === 0 ? `no shift onto the ${teeth}` : `only ${counted(shifts, 'shift')} onto the ${teeth}`,
  );
  if (few.length === 0) return '';
  return `; ${listed(words)} could be judged, so of ${few.length > 1 ? 'their limits' : 'its limit'} hardly anything is known`;
}

/** What is said first where no fault stands out: that nothing at all went wrong, where that is so. */
function nothingWrong({ diagnosis: { weighed }, cogs = [] }: SpokenOf): string {
  const trouble = sum(cogs, ({ late, missed, overshot }) => late + missed + overshot);
  return cogs.length > 0 && trouble + weighed.events === 0
    ? `Nothing went wrong in ${counted(weighed.judgedShifts, 'judged shift')}, and no fault stands out`
    : 'No fault stands out';
}

/** Which adjustment went too far. */
export const tooFarWords = ({ now }: Report['diagnosis']): string =>
  now.byLastAdjustment
    ? 'the last adjustment went too far'
    : 'an earlier adjustment went too far and is not yet taken back far enough';

/** What was wrong, where that is one cause, and what is wrong now. */
function overdoneSentence(report: SpokenOf): string {
  const { diagnosis, bike } = report;
  const { name, meaning } = causeWords(diagnosis.now.fault, bike.actuation);
  const [{ cause, probability }] = diagnosis.causes;
  const was = wasOneCause(report)
    ? `It was ${causeWords(cause, bike.actuation).name} (${percent(probability)}), and `
    : '';
  return upperFirst(`${was}${tooFarWords(diagnosis)}: now it is ${name}; ${meaning}.`);
}

/** What is logged is not doubted for its size: how far an adjuster reaches differs from bike to bike. */
const putRightSentence = ({ diagnosis: { shiftsWellSince } }: SpokenOf, before: string): string =>
  `Since what was logged on ${shiftsWellSince?.entryAt?.slice(0, 10)} the bike shifts well; before it, ${before}.`;

/** Without an entry that accounts for it nobody knows whether the fault is gone. */
const notShownSentence = ({ diagnosis: { shiftsWellSince: since } }: SpokenOf, before: string): string =>
  since
    ? `${upperFirst(notShownWords(since))}, and nothing that is logged accounts for that; before it, ${before}.`
    : '';

/** What was wrong at first, with how likely: one cause, or those between which it stays open. */
function whatItWas(report: SpokenOf): string {
  const { causes, undecided } = report.diagnosis;
  // what is wrong now made the list of all rides too, and is no part of what is gone
  const now = anotherNow(report.diagnosis).map(({ cause }) => cause);
  const faults = causes.filter(({ cause }) => cause !== 'no-fault' && !now.includes(cause));
  const between = wasOneCause(report)
    ? [causes[0]]
    : faults.filter(({ cause }, i) => (undecided ? undecided.between.includes(cause) : i < 2));
  return between
    .map(({ cause, probability }) => `${causeWords(cause, report.bike.actuation).name} (${percent(probability)})`)
    .join(' or ');
}

/** What is gone need not be one cause: where several fit alike it is said that it is open. */
function curedSentence(report: SpokenOf): string {
  const { causes, undecided, now } = report.diagnosis;
  const cured = `${curedBy(report.adjustments, [causes[0].cause, ...(undecided?.between ?? [])])} seems to have cured`;
  if (wasOneCause(report)) return `It was ${whatItWas(report)}, and ${cured} it.`;
  const [shifts, trouble] = (['shifts', 'trouble'] as const).map(
    (key) => now.since.toLarger[key] + now.since.toSmaller[key],
  );
  return `${upperFirst(cured)} what was wrong: since then ${figure(trouble)} of ${counted(shifts, 'judged shift')} went wrong. ${mostLikely(report)}`;
}

/** Which of several faults it was stays open; whether it was any at all does not once something was cured. */
const mostLikely = (report: SpokenOf): string =>
  report.diagnosis.undecided?.between.includes('no-fault')
    ? `Most likely it was ${whatItWas(report)}.`
    : `What it was stays open: ${whatItWas(report)}.`;

/** How often the cog that would tell was tried since its limit was seen to. A chain lost past it is a try too. */
export function triedWords({ trial, since: { chainDrops } }: Report['diagnosis']['now']): string {
  if (!trial) return '';
  const { end, since } = trial;
  const lost = end === 'past-largest' ? chainDrops.pastLargest : chainDrops.pastSmallest;
  if (lost > 0) return `: the chain was lost past the ${endWords[end]} cog ${counted(lost, 'time')} since`;
  return `: the ${endWords[end]} cog was tried ${since.shifts === 0 ? 'in no judged shift' : `in ${counted(since.shifts, 'judged shift')}`} since`;
}

/** What the rides since the last adjustment leave open. */
function unsettledWords({ diagnosis: { now } }: SpokenOf): string {
  const { pastLargest, pastSmallest } = now.since.chainDrops;
  const ends = [pastLargest > 0 && 'largest', pastSmallest > 0 && 'smallest'].filter((end) => end !== false);
  return ends.length > 0
    ? `since the last adjustment the chain was lost past the ${listed(ends)} cog, so that limit is looked at first`
    : `the rides since the last adjustment do not tell yet whether it is cured${triedWords(now)}`;
}

/** One lost chain names no part, but it is a fault until both were looked at. */
const limitOrHangerWords = 'The chain was lost past the largest cog: low limit or hanger, not yet told apart';

/** The verdict in a sentence: the likeliest cause and how sure it is, or between which two it is open; and in another what that leaves unexplained. */
export function verdictSentence(report: SpokenOf): string {
  const verdict = verdictOf(report);
  const { unexplained } = report.diagnosis;
  const apart = verdict.kind === 'nothing-seen' || verdict.kind === 'unexplained';
  return explainedSentence(report, verdict) + (unexplained && !apart ? ` ${unexplained.sentence}` : '');
}

/** The same without what is left unexplained. */
export function explainedSentence(report: SpokenOf, verdict: Verdict = verdictOf(report)): string {
  const words = verdict.causes.map(({ cause, probability }) => ({
    ...causeWords(cause, report.bike.actuation),
    share: percent(probability),
  }));
  const [first, second] = words;
  switch (verdict.kind) {
    case 'nothing-seen':
      return nothingSeenSentence(report);
    case 'sound':
      return `Nothing points to a mis-set part (${first.share} sure)${hardlyTried(report)}.`;
    case 'unexplained':
      return report.diagnosis.unexplained?.sentence ?? '';
    case 'under-load':
      return 'No part is named: shifts go wrong under hard pedalling alone.';
    case 'cured':
      return curedSentence(report);
    case 'overdone':
      return overdoneSentence(report);
    case 'another':
      return anotherSentence(report, `It was ${whatItWas(report)}`);
    case 'unsettled':
      return `It was ${first.name} (${first.share}); ${unsettledWords(report)}.`;
    case 'put-right':
      return putRightSentence(report, `${first.name} was likeliest (${first.share})`);
    case 'not-shown':
      return notShownSentence(report, `${first.name} was likeliest (${first.share})`);
    case 'unnamed':
      if (report.diagnosis.limitOrHanger) return `${limitOrHangerWords} (${first.name} ${first.share}).`;
      return `No part is named yet: ${first.name} comes first (${first.share}), but the evidence is too thin.`;
    case 'named':
      if (report.diagnosis.limitOrHanger)
        return `The chain was lost past the largest cog: low limit or hanger. Likeliest${ifOneFault(report)}: ${first.name} (${first.share}); but a bent hanger does the same, and lost chains hardly tell the two apart, so have the hanger gauged first.`;
      return `Likeliest${ifOneFault(report)}: ${first.name} (${first.share}); ${first.meaning}.`;
    case 'open':
      if (noneStandsOut(verdict, report))
        return `${nothingWrong(report)}: ${first.name} (${first.share}) is likelier than any, the next is ${second.name} (${second.share})${hardlyTried(report)}.`;
      return `Open between ${first.name} (${first.share}) and ${second.name} (${second.share}).`;
  }
}
