import type { Adjustment } from '../../adjustments/adjustment.ts';
import { type CassetteEnd, endCog } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { limitAt } from '../../diagnosis/cassette-ends.ts';
import { causePhrase, causeWords } from '../../diagnosis/cause-words.ts';
import type { Cause } from '../../diagnosis/causes.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import { chance } from '../../numeric/percent.ts';
import { timesWords } from '../../numeric/times-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { LostChain } from './lost-chains.ts';
import type { NamedCause, StateSigns } from './state-signs.ts';
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
    until: 'the hanger is checked',
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

/** What can hurt on a bike, as a sentence with what to do before riding, and what it says that the next step may say too. */
export interface Danger {
  readonly text: string;
  /** Where it keeps off an end cog by its teeth: whether the hanger is among what is to be looked at before that is ridden onto. */
  readonly keepsOff?: 'until-hanger' | 'until-other';
  /** Where it is a bent hanger: whether it says what to do about it. */
  readonly hanger?: 'with-what-to-do' | 'named';
}

/**
 * What can hurt on a bike: to be said whatever its state is. Each danger is said once: where the
 * diagnosis keeps off an end cog, with the lost chain that it does so for.
 */
export function stateDangers(signs: StateSigns): Danger[] {
  const { leftTheCassette, cameOffElsewhere, unproven } = signs;
  const notYetSaid = (signs.now.keepOff ?? []).filter((end) => !unproven.some((one) => one.end === end));
  const fault = dangerousFault(signs);
  const lostByIt = leftTheCassette.sure > 0 && fault !== null && isLimitOf(notYetSaid, fault.danger);
  return [
    ...lostInWords(notYetSaid, lostByIt ? fault : null, signs),
    ...unproven.map((end) => ({ text: unprovenInWords(end, signs), ...keepsOff([end.end], signs) })),
    ...(cameOffElsewhere.sure + cameOffElsewhere.unsure > 0
      ? [
          {
            text: `The chain ${cameOffWords(cameOffElsewhere)}: look over chain, chainring and chain guide before riding, and log that look at the chain.`,
          },
        ]
      : []),
    ...(fault && !lostByIt ? [faultInWords(fault, signs)] : []),
  ];
}

/** A fault that can hurt and is likely on a bike. */
interface LikelyDanger extends NamedCause {
  readonly danger: DangerousFault;
}

/** The fault that is likeliest now, where it can hurt. */
function dangerousFault({ topFault, overdone, cured, enough }: StateSigns): LikelyDanger | null {
  const fault = overdone ?? topFault;
  const danger = fault && dangerous[fault.cause];
  return enough && !cured && danger && fault.probability >= DANGEROUS_FROM ? { ...fault, danger } : null;
}

/** Whether a fault is that of the limit at the one end kept off: that the chain goes past it is no further danger then. */
const isLimitOf = (ends: readonly CassetteEnd[], { part, end }: DangerousFault): boolean =>
  part !== 'hanger' && ends.length === 1 && ends[0] === end;

function faultInWords({ cause, probability, danger }: LikelyDanger, signs: StateSigns): Danger {
  const todo = whatToDo(danger, signs);
  return {
    text: `${upperFirst(causeWords(cause, signs.actuation).name)} (${chance(probability)}): ${danger.what}.${todo}`,
    ...(danger.part === 'hanger' && { hanger: todo === '' ? 'named' : 'with-what-to-do' }),
  };
}

/**
 * The chains lost since the last adjustment, surely or perhaps, with all the cogs that are kept off for them.
 *
 * @param by the limit that likeliest let them past, if that is named
 */
function lostInWords(ends: readonly CassetteEnd[], by: LikelyDanger | null, signs: StateSigns): Danger[] {
  const { leftTheCassette, actuation } = signs;
  const keepOff = ends.length > 0 ? keepOffInWords(ends, signs) : '';
  if (leftTheCassette.sure === 0) {
    const past = ends.length > 1 ? 'them' : 'it';
    return keepOff === ''
      ? []
      : [
          {
            text: `${upperFirst(keepOff)}, since the chain may have been lost past ${past}: inspect before riding.`,
            ...keepsOff(ends, signs),
          },
        ];
  }
  const likeliest = by
    ? `, likeliest by ${causePhrase(by.cause, actuation === 'electronic')} (${chance(by.probability)})`
    : '';
  return [
    {
      text: `The chain left the cassette ${timesInWords(leftTheCassette)}${likeliest}: inspect before riding${keepOff === '' ? '' : `, and ${keepOff}`}.`,
      ...keepsOff(ends, signs),
    },
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
  return `The chain left the cassette past the ${teeth} before the last adjustment (${timesWords(times)}), and ${show} that it stays on: inspect before riding, and ${keepOffInWords([end], signs)}.`;
}

/** What is left to be looked at before an end cog is ridden onto. */
function leftToLookAt(end: CassetteEnd, { lookedOver, seenTo }: StateSigns): { limit: boolean; hanger: boolean } {
  const done = lookedOver.includes(end) ? [limitAt[end].parameter, 'hanger'] : seenTo.lookedAtOrSet;
  return { limit: !done.includes(limitAt[end].parameter), hanger: !done.includes('hanger') };
}

/** Whether a danger keeps off ends, and until when. */
const keepsOff = (ends: readonly CassetteEnd[], signs: StateSigns): Pick<Danger, 'keepsOff'> =>
  ends.length === 0
    ? {}
    : { keepsOff: ends.some((end) => leftToLookAt(end, signs).hanger) ? 'until-hanger' : 'until-other' };

/** Which cogs to keep off, until what is left to do was done. */
function keepOffInWords(ends: readonly CassetteEnd[], signs: StateSigns): string {
  const { cassette } = signs;
  const cogs = ends.map((end) => ({
    name: `the ${cassette[endCog(end, cassette.length)]}`,
    until: untilInWords(leftToLookAt(end, signs), false),
  }));
  const [first] = cogs;
  if (cogs.some(({ until }) => until !== first.until))
    return `keep ${cogs.map(({ name, until }) => `off ${name} until ${until}`).join(', and ')}`;
  const until = untilInWords(leftToLookAt(ends[0], signs), ends.length > 1);
  return `keep off ${listed(cogs.map(({ name }) => name))} until ${until}`;
}

/** @param many whether it is said of both ends */
function untilInWords({ limit, hanger }: { limit: boolean; hanger: boolean }, many: boolean): string {
  const left = [limit && (many ? 'their limits' : 'its limit'), hanger && 'the hanger'].filter(
    (part) => part !== false,
  );
  const were = left.length > 1 || (many && limit) ? 'were' : 'was';
  const until = [left.length > 0 && `${listed(left)} ${were} looked at`, left.length < 2 && 'the chain stays on there'];
  return `${listed(until.filter((part) => part !== false))} on a stand`;
}

const OFF = 'off the chainring, or nobody knows where,';
const cameOffWords = (lost: LostChain): string =>
  lost.sure > 0 ? `came ${OFF} ${timesInWords(lost)}` : `may have come ${OFF} ${timesWords(lost.unsure)}${lost.since}`;

const timesInWords = ({ sure, unsure, since }: LostChain): string =>
  `${timesWords(sure)}${since}${unsure > 0 ? ` (and perhaps ${timesWords(unsure)} more)` : ''}`;
