import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { limitAt } from '../../diagnosis/cassette-ends.ts';
import { causeWords } from '../../diagnosis/cause-words.ts';
import type { Cause } from '../../diagnosis/causes.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import { percent } from '../../numeric/percent.ts';
import { timesWords } from '../../numeric/times-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { LostChain } from './lost-chains.ts';
import type { StateSigns } from './state-signs.ts';
import type { UnprovenEnd } from './unproven-ends.ts';

/** Probability of a dangerous fault that is worth a warning. An assumption. */
const DANGEROUS_FROM = 0.5;

/** A fault that can hurt before anything has happened. */
interface DangerousFault {
  readonly what: string;
  /** The end whose cog is kept off. */
  readonly end: CassetteEnd;
  readonly until: string;
  /** What a look at tells of it. */
  readonly part: Adjustment['parameter'];
}

const UNTIL_SET = 'the screw is set and was tried on a stand';

const dangerous: Partial<Record<Cause, DangerousFault>> = {
  'hanger-bent': {
    what: 'the derailleur can reach the spokes',
    end: 'past-largest',
    until: 'it is checked',
    part: 'hanger',
  },
  'low-limit-loose': {
    what: 'the chain can go into the spokes',
    end: 'past-largest',
    until: UNTIL_SET,
    part: 'low-limit',
  },
  'high-limit-loose': {
    what: 'the chain can jam at the frame',
    end: 'past-smallest',
    until: UNTIL_SET,
    part: 'high-limit',
  },
};

/**
 * What can hurt on a bike, a sentence each, with what to do before riding: to be said whatever its state is. Where the diagnosis keeps off
 * an end cog, it is said once, with what has to be done first.
 */
export function stateDangers(signs: StateSigns): string[] {
  const { leftTheCassette, cameOffElsewhere, unproven } = signs;
  const dangers: string[] = [];
  const left = leftTheCassette.sure > 0;
  if (left) dangers.push(`The chain left the cassette ${timesInWords(leftTheCassette)}: inspect before riding.`);
  dangers.push(...unproven.map((end) => unprovenInWords(end, signs)));
  const notYetSaid = (signs.now.keepOff ?? []).filter((end) => !unproven.some((one) => one.end === end));
  const lost = left ? 'the chain was lost past it' : 'the chain may have been lost past it: inspect before riding';
  dangers.push(...notYetSaid.map((end) => `${upperFirst(keepOffInWords(end, signs))}, since ${lost}.`));
  if (cameOffElsewhere.sure + cameOffElsewhere.unsure > 0)
    dangers.push(
      `The chain ${cameOffWords(cameOffElsewhere)}: look over chain, chainring and chain guide before riding, and log that look at the chain.`,
    );
  return [...dangers, ...dangerousFault(signs)];
}

/** The fault that is likeliest now, where it can hurt. */
function dangerousFault(signs: StateSigns): string[] {
  const { actuation, topFault, overdone, cured, enough } = signs;
  const fault = overdone ?? topFault;
  const danger = fault && dangerous[fault.cause];
  if (!enough || cured || !danger || fault.probability < DANGEROUS_FROM) return [];
  return [
    `${upperFirst(causeWords(fault.cause, actuation).name)} (${percent(fault.probability)}): ${danger.what}.${whatToDo(danger, signs)}`,
  ];
}

/**
 * Nothing where it is said of a lost chain; a try on a stand where the next step sends the rider there: once something was done that may have
 * mended it, or the part was seen to and is not asked for again. A hanger that nobody saw to stays unchecked whatever else was done.
 */
function whatToDo({ end, until, part }: DangerousFault, signs: StateSigns): string {
  const { now, overdone, seenTo, stepIsAbout } = signs;
  if (now.keepOff?.includes(end)) return '';
  const mayBeMended = now.setting === 'untested' || now.setting === 'unsettled';
  const seen = seenTo.lookedAt.includes(part);
  const tried = mayBeMended ? seen || part !== 'hanger' : seen && stepIsAbout !== part;
  return tried && !overdone
    ? ` Try the ${endWords[end]} cog on a stand, turning the cranks by hand, before any ride onto it.`
    : ` Keep off the ${endWords[end]} cog until ${until}.`;
}

function unprovenInWords(unproven: UnprovenEnd, signs: StateSigns): string {
  const { end, teeth, times, shiftsSince } = unproven;
  const show =
    shiftsSince === 0
      ? 'no shift onto it since shows'
      : `only ${counted(shiftsSince, 'clean shift')} onto it since ${shiftsSince > 1 ? 'show' : 'shows'}`;
  return `The chain left the cassette past the ${teeth} before the last adjustment (${timesWords(times)}), and ${show} that it stays on: inspect before riding, and ${keepOffInWords(end, signs)}.`;
}

/** Which cog to keep off, until what is left to do was done. */
function keepOffInWords(end: CassetteEnd, { cassette, lookedOver, seenTo }: StateSigns): string {
  const teeth = end === 'past-largest' ? cassette.at(-1) : cassette[0];
  const done = lookedOver.includes(end) ? [limitAt[end].parameter, 'hanger'] : seenTo.lookedAtOrSet;
  const left = [!done.includes(limitAt[end].parameter) && 'its limit', !done.includes('hanger') && 'the hanger'].filter(
    (part) => part !== false,
  );
  const until = [
    left.length > 0 && `${listed(left)} ${left.length > 1 ? 'were' : 'was'} looked at`,
    left.length < 2 && 'the chain stays on there',
  ].filter((part) => part !== false);
  return `keep off the ${teeth} until ${listed(until)} on a stand`;
}

const OFF = 'off the chainring, or nobody knows where,';
const cameOffWords = (lost: LostChain): string =>
  lost.sure > 0 ? `came ${OFF} ${timesInWords(lost)}` : `may have come ${OFF} ${timesWords(lost.unsure)}${lost.since}`;

const timesInWords = ({ sure, unsure, since }: LostChain): string =>
  `${timesWords(sure)}${since}${unsure > 0 ? ` (and perhaps ${timesWords(unsure)} more)` : ''}`;
