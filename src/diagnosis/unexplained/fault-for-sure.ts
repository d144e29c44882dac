import type { Direction } from '../../shifts/ride-events.ts';
import { causePlace } from '../cause-place.ts';
import { type Cause, causes } from '../causes.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import type { Observed } from '../observed.ts';
import { type CauseProbabilities, posterior } from '../posterior/posterior.ts';
import { goneWithSoftLegs } from '../posterior/rider-load.ts';
import { likeliest } from '../posterior/sensitivity.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { causesInQuestion, findUnexplained } from './find-unexplained.ts';
import { oneWayTrouble } from './one-way-trouble.ts';

/** So little is left for a bike in order whose shifts plainly fail one way. An assumption of ours, far above the chance that calls it plain. */
const LEFT_FOR_NONE = 0.01;

/** Whether a cause makes more shifts fail in a direction than in the other. A bent hanger does, by which cogs are ridden. */
const showsOneWay = (cause: Cause, direction: Direction, seen: Observed): boolean =>
  cause === 'hanger-bent' || causePlace(cause, seen)?.direction === direction;

/**
 * The causes' probabilities where shifts plainly fail one way (`oneWayTrouble`): what spoke for a bike in order goes to the faults that show so, as
 * each is likely. A cause that shows elsewhere, such as a limit past which the chain was lost, keeps its own.
 *
 * @param probabilities in the order of `causes`
 */
export function faultForSure(
  probabilities: CauseProbabilities,
  failsOneWay: Direction | null,
  seen: Observed,
): CauseProbabilities {
  if (!failsOneWay) return probabilities;
  const none = causes.indexOf('no-fault');
  const freed = Math.max(0, probabilities[none] - LEFT_FOR_NONE);
  const shows = causes.map((cause) => showsOneWay(cause, failsOneWay, seen));
  const showing = probabilities.reduce((sum, p, c) => (shows[c] ? sum + p : sum), 0);
  return probabilities.map((p, c) => (c === none ? p - freed : shows[c] ? p * (1 + freed / showing) : p));
}

/** How likely each cause is, in the order of `causes`, with the direction in which shifts so plainly fail that a bike in order is next to ruled out; else null. */
export interface CausesWeighed {
  readonly probabilities: CauseProbabilities;
  readonly failsOneWay: Direction | null;
}

/** Weighs the causes, and a bike in order against shifts that fail one way: not where no known fault explains those, since then none of them gains by it, nor where it is the rider's pressing that spoils them. */
export function causesWeighed(weighed: WeighedCauses, seen: Observed): CausesWeighed {
  const probabilities = posterior(weighed);
  const { evidence } = weighed.model;
  const failsOneWay = goneWithSoftLegs(evidence) ? null : oneWayTrouble(evidence);
  const held = faultForSure(probabilities, failsOneWay, seen);
  const inOrder = failsOneWay && likeliest(probabilities) === 'no-fault';
  return inOrder && noneExplains(weighed, held, seen)
    ? { probabilities, failsOneWay: null }
    : { probabilities: held, failsOneWay };
}

function noneExplains(weighed: WeighedCauses, held: CauseProbabilities, seen: Observed): boolean {
  const ranked = causes.map((cause, c) => ({ cause, probability: held[c] }));
  const named = ranked.toSorted((a, b) => b.probability - a.probability).slice(0, 2);
  const inQuestion = causesInQuestion(ranked, ['no-fault', ...named.map(({ cause }) => cause)]);
  return seen.all.shifts >= FEWEST_SHIFTS && findUnexplained(weighed, inQuestion) !== null;
}
