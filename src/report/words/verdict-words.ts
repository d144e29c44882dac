import { causeWords } from '../../diagnosis/cause-words.ts';
import { failingOnto } from '../../diagnosis/unexplained/plain-trouble.ts';
import { LOST_FOR_SURE } from '../../diagnosis/verdict-limits.ts';
import { chance } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { noneStandsOut, type Verdict, verdictOf } from '../verdict-kind.ts';
import { anotherSentence } from './another-fault.ts';
import { curedSentence, whatItWas } from './cured-sentence.ts';
import { helpedAnother, helpedSentence } from './helped-sentence.ts';
import { hardlyTried, nothingWrong } from './how-little-tried.ts';
import { ifOneFault } from './if-one-fault.ts';
import { mayBeMendedSentence } from './may-be-mended-sentence.ts';
import { nothingSeenSentence } from './nothing-seen-sentence.ts';
import { overdoneSentence } from './overdone-sentence.ts';
import { notShownSentence, putRightSentence } from './shifts-well-sentences.ts';
import type { SpokenOf } from './spoken-of.ts';
import { unsettledWords } from './unsettled-words.ts';

/** One lost chain names no part, but it is a fault until both were looked at. */
const limitOrHanger = (report: SpokenOf): string =>
  `The chain ${lostPastLargest(report)} past the largest cog: low limit or hanger`;

/** Nobody is told of a lost chain as a fact that the log hardly shows. */
function lostPastLargest({ rides = [] }: SpokenOf): string {
  const drops = rides.flatMap(({ chainDrops = [] }) => chainDrops).filter(({ side }) => side === 'past-largest');
  const hardly = drops.length > 0 && drops.every(({ confidence }) => confidence < LOST_FOR_SURE);
  return hardly ? 'seems to have been lost' : 'was lost';
}

/** How sure it is that nothing points to a part, with what helped: to stand below a headline that says so. */
export const soundSentence = (report: SpokenOf): string =>
  `${helpedSentence(report)}${chance(report.diagnosis.causes[0].probability)} sure${hardlyTried(report)}.`;

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
    share: chance(probability),
  }));
  const [first, second] = words;
  const { failsOnto } = report.diagnosis;
  switch (verdict.kind) {
    case 'nothing-seen':
      return nothingSeenSentence(report);
    case 'sound':
      return `${helpedSentence(report)}Nothing points to a mis-set part (${first.share} sure)${hardlyTried(report)}.`;
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
      if (report.diagnosis.limitOrHanger)
        return `${limitOrHanger(report)}, not yet told apart (${first.name} ${first.share}).`;
      if (failsOnto)
        return `${upperFirst(failingOnto(failsOnto))}; which part it is is not told yet: ${first.name} comes first (${first.share}).`;
      return `No part is named yet: ${first.name} comes first (${first.share}), but the evidence is too thin.`;
    case 'named':
      if (report.diagnosis.limitOrHanger)
        return `${limitOrHanger(report)}. Likeliest${ifOneFault(report)}: ${first.name} (${first.share}); but a bent hanger does the same, and lost chains hardly tell the two apart, so have the hanger gauged first.`;
      return `${helpedAnother(report)}Likeliest${ifOneFault(report)}: ${first.name} (${first.share}); ${first.meaning}.`;
    case 'open':
      if (noneStandsOut(verdict, report))
        return `${helpedSentence(report)}${nothingWrong(report)}: ${first.name} (${first.share}) is likelier than any, the next is ${second.name} (${second.share})${hardlyTried(report)}.`;
      return openSentence(report, verdict);
  }
}

/** Where it may be that nothing is wrong, what helped, or may have, is part of the answer. */
function openSentence(report: SpokenOf, { causes }: Extract<Verdict, { kind: 'open' }>): string {
  const [first, second] = causes.map(({ cause, probability }) => ({
    cause,
    words: `${causeWords(cause, report.bike.actuation).name} (${chance(probability)})`,
  }));
  const open = `Open between ${first.words} and ${second.words}.`;
  if (first.cause !== 'no-fault') return open;
  const helped = helpedSentence(report);
  return helped ? helped + open : open + mayBeMendedSentence(second.cause, report);
}
