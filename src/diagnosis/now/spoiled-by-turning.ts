import type { Adjustment } from '../../adjustments/adjustment.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { particlesOf } from '../posterior/particles.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import type { SpoiledShares } from '../posterior/with-spoiled.ts';
import { failsLike } from './fails-like.ts';
import { seenSince } from './seen-since.ts';
import { sinceFirstRide } from './since-first-ride.ts';
import { standsOut } from './still-there.ts';
import { type TurnableFault, turnableFaults, turnedTowards } from './turned-towards.ts';

/**
 * The faults that turning may have brought to a bike that was in order at its first ride: the setting was turned that way since, all in all, and
 * the rides after the last of it fail that way. What no ride came after has spoiled nothing that was seen.
 *
 * @param adjustments in order of time, without what was turned and taken back
 */
export function faultsTurnedTo(
  rides: readonly DiagnosisRide[],
  adjustments: readonly Adjustment[],
  bike: { readonly cassette: readonly number[] },
): TurnableFault[] {
  const lastMs = Math.max(Number.NEGATIVE_INFINITY, ...rides.map(({ startMs }) => startMs).filter(hasClock));
  const ridden = sinceFirstRide(adjustments, rides).filter(({ at }) => Date.parse(at) <= lastMs);
  return turnableFaults.filter((fault) => {
    const towards = turnedTowards(fault, ridden);
    if (!towards) return false;
    const until = ridden.filter(({ at }) => Date.parse(at) <= Date.parse(towards.lastAt));
    return failsLike(fault, seenSince(rides, until, bike));
  });
}

/** So many imagined bikes in order are asked. */
const ASKED = 200;

/**
 * How many of the imagined bikes that were in order at their first ride stand out by now on the side of each of some faults.
 *
 * @param faults those that turning may have brought about, see `faultsTurnedTo`
 */
export function spoiledShares(weighed: WeighedCauses, faults: readonly Cause[]): SpoiledShares {
  if (faults.length === 0) return new Map();
  const { model } = weighed;
  const newest = model.evidence.segments.findLast(({ placed }) => placed)?.period ?? 0;
  const setups = particlesOf(weighed, 'no-fault', ASKED).map((bike) => model.setupInOrder(bike, newest));
  const first = setups.map((setup) => faults.find((fault) => standsOut(fault, setup)));
  return new Map(faults.map((fault) => [fault, first.filter((one) => one === fault).length / setups.length]));
}
