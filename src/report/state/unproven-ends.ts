import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { type CassetteEnd, cassetteEnds, endCog } from '../../adjustments/end-cog-count.ts';
import { trialFromMs } from '../../diagnosis/now/limit-trial.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DropSide } from '../../shifts/ride-events.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import { known, lossesOf } from './parts-seen-to.ts';

/** An end cog past which the chain was surely lost before an adjustment, and of which the rides since have not shown that the chain stays on. */
export interface UnprovenEnd {
  readonly end: CassetteEnd;
  readonly teeth: number;
  readonly times: number;
  /** Clean shifts onto it as its limit stands now. */
  readonly shiftsSince: number;
}

/**
 * The end cogs that still have to prove themselves: what was turned after the chain was lost may have cured it, but nothing shows that
 * yet. Where it was lost since the last adjustment as well, that says more, and the end is left out.
 *
 * @param sureFrom least confidence of a lost chain that counts; one on a ride without a date may lie after any adjustment
 * @param rides those that count for the bike, with all their shifts; what has no date is left out
 */
export function unprovenEnds(report: Report, rides: readonly PlacedRide[], sureFrom: number): UnprovenEnd[] {
  const { cassette } = report.bike;
  const keepOff = report.diagnosis.now.keepOff ?? [];
  return cassetteEnds.flatMap((end) => {
    if (!keepOff.includes(end)) return [];
    const lostMs = lostAt(report, end, sureFrom);
    const adjustedMs = standingAdjustments(report)
      .map(({ at }) => Date.parse(at))
      .find((ms) => ms > Math.max(...lostMs));
    if (lostMs.length === 0 || adjustedMs === undefined || !lostMs.every(hasClock)) return [];
    // a limit that was opened again is another setting than the one before it
    const fromMs = trialFromMs(end, ridesThatCount(report).map(lossesOf), known(standingAdjustments(report)));
    const cog = endCog(end, cassette.length);
    const shiftsSince = cleanOnto(rides, cog, fromMs ?? adjustedMs);
    return [{ end, teeth: cassette[cog], times: lostMs.length, shiftsSince }];
  });
}

const lostAt = (report: Report, side: DropSide, sureFrom: number): number[] =>
  ridesThatCount(report)
    .flatMap(({ chainDrops }) => chainDrops)
    .filter((drop) => drop.side === side && drop.confidence >= sureFrom)
    .map(({ at }) => Date.parse(at));

const cleanOnto = (rides: readonly PlacedRide[], cog: number, fromMs: number): number =>
  rides
    .filter(({ startMs }) => hasClock(startMs))
    .flatMap(({ startMs, events }) => events.shifts.filter(({ timeS }) => startMs + timeS * 1000 >= fromMs))
    .filter(({ toCog, outcome, weak }) => toCog === cog && outcome === 'clean' && !weak).length;
