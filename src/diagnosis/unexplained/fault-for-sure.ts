import type { Adjustment } from '../../adjustments/adjustment.ts';
import { causePlace } from '../cause-place.ts';
import { type Cause, causes } from '../causes.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { canBring } from '../likelihood/onset-options.ts';
import type { Observed } from '../observed.ts';
import { type CauseProbabilities, posterior } from '../posterior/posterior.ts';
import { goneWithSoftLegs } from '../posterior/rider-load.ts';
import { likeliest } from '../posterior/sensitivity.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { type SpoiledShares, withSpoiled } from '../posterior/with-spoiled.ts';
import { causesInQuestion, findUnexplained, IN_QUESTION_FROM } from './find-unexplained.ts';
import { type PlainTrouble, plainTrouble } from './plain-trouble.ts';

/** So little is left for a bike in order whose shifts plainly fail. An assumption of ours, no less than the chance that calls it plain. */
const LEFT_FOR_NONE = 0.01;

/**
 * Whether a cause makes shifts fail in a direction more than in the other, or onto one cog more than onto all others. A bent hanger does, by which cogs are
 * ridden, and most at the ends; one that spoils a whole direction spoils no cog alone.
 */
export function showsThere(cause: Cause, { direction, cog }: PlainTrouble, seen: Observed): boolean {
  const last = seen.cassette.length - 1;
  if (cause === 'hanger-bent') return cog === null || cog === 0 || cog === last;
  const place = causePlace(cause, seen);
  if (place?.direction !== direction) return false;
  return cog === null || (place.from <= cog && cog <= place.to && place.to - place.from < last - 1);
}

/**
 * The causes' probabilities where shifts plainly fail (`plainTrouble`): what spoke for a bike in order goes to the faults that show so, as
 * each is likely. A cause that shows elsewhere, such as a limit past which the chain was lost, keeps its own.
 *
 * @param probabilities in the order of `causes`
 */
export function faultForSure(
  probabilities: CauseProbabilities,
  plainly: PlainTrouble | null,
  seen: Observed,
): CauseProbabilities {
  if (!plainly) return probabilities;
  const none = causes.indexOf('no-fault');
  const freed = Math.max(0, probabilities[none] - LEFT_FOR_NONE);
  const shows = causes.map((cause) => showsThere(cause, plainly, seen));
  const showing = probabilities.reduce((sum, p, c) => (shows[c] ? sum + p : sum), 0);
  return probabilities.map((p, c) => (c === none ? p - freed : shows[c] ? p * (1 + freed / showing) : p));
}

/** How likely each cause is, in the order of `causes`, with the shifts that so plainly fail that a bike in order is next to ruled out; else null. */
export interface CausesWeighed {
  readonly probabilities: CauseProbabilities;
  readonly failsPlainly: PlainTrouble | null;
  readonly spoiled: SpoiledShares;
}

/** What turning may have done to a bike that was in order at its first ride. */
interface ByTurning {
  readonly spoiled: SpoiledShares;
  /** The first turn after rides that show a bike that shifts well; null without any. */
  readonly turnedWhileWell: Pick<Adjustment, 'parameter'> | null;
}

/**
 * Weighs the causes, and a bike in order against shifts that plainly fail: not where no known fault explains those, since then none of them gains by it, nor where it is the rider's
 * pressing that spoils them, nor where the bike shifted well until somebody turned what spoils them: then it was in order at first.
 */
export function causesWeighed(
  weighed: WeighedCauses,
  seen: Observed,
  { spoiled, turnedWhileWell }: ByTurning,
): CausesWeighed {
  const { evidence } = weighed.model;
  const probabilities = withSpoiled(posterior(weighed), spoiled);
  const found = goneWithSoftLegs(evidence) ? null : plainTrouble(evidence, seen.cassette.length);
  const isFault = found && isNews(found, probabilities, seen) && !cameWithWork(found, turnedWhileWell, seen);
  const failsPlainly = isFault ? found : null;
  const held = faultForSure(probabilities, failsPlainly, seen);
  const inOrder = failsPlainly && likeliest(probabilities) === 'no-fault';
  return inOrder && noneExplains(weighed, held, seen)
    ? { probabilities, failsPlainly: null, spoiled }
    : { probabilities: held, failsPlainly, spoiled };
}

/** Whether the bike shifted well until something was turned that can make shifts fail so. */
const cameWithWork = (found: PlainTrouble, turn: ByTurning['turnedWhileWell'], seen: Observed): boolean =>
  turn !== null && causes.some((cause) => canBring(cause, turn.parameter) && showsThere(cause, found, seen));

/** A cog that fails is news as long as a bike in order is in question, and where some fault shows on it alone. */
const isNews = (plainly: PlainTrouble, probabilities: CauseProbabilities, seen: Observed): boolean =>
  plainly.cog === null ||
  (probabilities[causes.indexOf('no-fault')] >= IN_QUESTION_FROM &&
    [0, seen.cassette.length - 1].includes(plainly.cog) &&
    causes.some((cause) => showsThere(cause, plainly, seen)));

function noneExplains(weighed: WeighedCauses, held: CauseProbabilities, seen: Observed): boolean {
  const ranked = causes.map((cause, c) => ({ cause, probability: held[c] }));
  const named = ranked.toSorted((a, b) => b.probability - a.probability).slice(0, 2);
  const inQuestion = causesInQuestion(ranked, ['no-fault', ...named.map(({ cause }) => cause)]);
  return seen.all.shifts >= FEWEST_SHIFTS && findUnexplained(weighed, inQuestion) !== null;
}
