import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { chainLookedOverMs, isPastAnEnd } from '../../diagnosis/now/chain-looked-over.ts';
import { LOST_FOR_SURE } from '../../diagnosis/verdict-limits.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import { type UnprovenEnd, unprovenEnds } from './unproven-ends.ts';

type Drop = Report['rides'][number]['chainDrops'][number];

/**
 * How often the chain came off since the last adjustment, surely and perhaps; `since` says so in words where it came off before as well.
 * What happened on a ride without a date counts: nobody knows that it was before.
 */
export interface LostChain {
  readonly sure: number;
  readonly unsure: number;
  readonly since: string;
}

/** Lost chains by where they went: what left the cassette can end in the spokes or jam at the frame. */
export interface LostChains {
  readonly leftTheCassette: LostChain;
  /** Off the chainring, or nobody knows where; since the chain was looked over, where that was later. */
  readonly cameOffElsewhere: LostChain;
  /** Ends past which it was lost before the last adjustment, without a sign since that it stays on. */
  readonly unproven: readonly UnprovenEnd[];
  /** Of the ends past which it was lost those of which limit and hanger were both looked at or set since. */
  readonly lookedOver: readonly CassetteEnd[];
  /** Whether the chain was surely lost past another end, and nothing shows that it stays on there: that is looked at before anybody rides. */
  readonly toLookAt: boolean;
}

/**
 * The chains that a report's rides lost, those of rides that count for the bike.
 *
 * @param rides the same rides with all their shifts
 */
export function lostChains(report: Report, rides: readonly PlacedRide[]): LostChains {
  const { keepOff = [], lookedOver = [] } = report.diagnosis.now;
  const unproven = unprovenEnds(report, rides, LOST_FOR_SURE);
  const notLookedOver = (side: Drop['side']): boolean => isPastAnEnd(side) && !lookedOver.includes(side);
  return {
    leftTheCassette: lostChain(report, (side) => notLookedOver(side) || (isPastAnEnd(side) && keepOff.includes(side))),
    cameOffElsewhere: lostChain(report, (side) => !isPastAnEnd(side), chainLookedOverMs(report.looks ?? [])),
    unproven,
    lookedOver,
    toLookAt: lostChain(report, notLookedOver).sure > 0 || unproven.some(({ end }) => notLookedOver(end)),
  };
}

/** @param lookedOverMs when a look found all right after which an earlier loss counts no more */
function lostChain(
  report: Report,
  counts: (side: Drop['side']) => boolean,
  lookedOverMs = Number.NEGATIVE_INFINITY,
): LostChain {
  const lastAdjustment = standingAdjustments(report).at(-1)?.at;
  const adjustedMs = lastAdjustment ? Date.parse(lastAdjustment) : Number.NEGATIVE_INFINITY;
  const from = Math.max(adjustedMs, lookedOverMs);
  const all = ridesThatCount(report)
    .flatMap(({ start, chainDrops }) => chainDrops.map((drop) => ({ ...drop, dated: hasClock(Date.parse(start)) })))
    .filter(({ side }) => counts(side));
  const recent = all.filter(({ at, dated }) => !dated || Date.parse(at) >= from);
  const sure = recent.filter(({ confidence }) => confidence >= LOST_FOR_SURE).length;
  return {
    sure,
    unsure: recent.length - sure,
    since:
      recent.length < all.length
        ? sinceWords(
            recent.some(({ dated }) => !dated),
            lookedOverMs > adjustedMs ? 'the chain was looked over' : 'the last adjustment',
          )
        : '',
  };
}

const sinceWords = (undated: boolean, what: string): string =>
  ` since ${what}${undated ? ' or on a ride without a date' : ''}`;
