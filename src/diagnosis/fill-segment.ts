import { median } from 'd3-array';
import { DEVIATIONS_PER_MAD } from '../numeric/median-deviation.ts';
import type { ChainDropEvent, RideEvents, ShiftEvent } from '../shifts/ride-events.ts';
import { evidenceWeights } from './assumptions.ts';
import { cogCell, type EvidenceSegment, type LoadEdges, loadBin, loadBins, outcomes } from './evidence-table.ts';
import { fitKind, fitKinds } from './outcome-fit.ts';

/**
 * Whether a shift's crank turns tell of the bike: those of clean shifts by one cog do. Over several cogs the chain needs longer,
 * the more so the quicker the presses came.
 */
function timesCog(shift: ShiftEvent): shift is ShiftEvent & { readonly crankRevs: number } {
  return shift.outcome === 'clean' && shift.crankRevs !== null && !shift.weak && shift.cogsToCross === 1;
}

/** Middle and spread of the crank turns that clean shifts by one cog take. */
export interface RevTiming {
  readonly median: number;
  readonly spread: number;
}

/** A single shift counts for no more than this many spreads off the median. */
const mostSpreads = 3;

/** Median of a ride's clean shifts by one cog, and their spread (standard deviation, from the median absolute deviation), at least 0.05 turns. */
export function revTiming(events: RideEvents): RevTiming {
  const revs = events.shifts.filter(timesCog).map(({ crankRevs }) => crankRevs);
  if (revs.length === 0) return { median: 0, spread: 0.2 };
  const middle = median(revs) ?? 0;
  return {
    median: middle,
    spread: Math.max(0.05, DEVIATIONS_PER_MAD * (median(revs.map((value) => Math.abs(value - middle))) ?? 0)),
  };
}

/** Which end a dropped chain belongs to: 0 past the largest cog, 1 past the smallest, 2 elsewhere. */
function dropEnd(drop: ChainDropEvent, cassetteLength: number): number {
  if (drop.side === 'past-largest') return 0;
  if (drop.side === 'past-smallest') return 1;
  if (drop.side === 'unknown' && drop.afterShiftTo === cassetteLength - 1) return 0;
  if (drop.side === 'unknown' && drop.afterShiftTo === 0) return 1;
  return 2;
}

/**
 * Adds what one ride shows between two of its moments (seconds since its start, `toS` excluded) to a segment.
 * `timeShare` is the share of the ride's pedalling that lies between them.
 */
export function fillSegment(
  segment: EvidenceSegment,
  events: RideEvents,
  span: { readonly fromS: number; readonly toS: number; readonly timeShare: number },
  cassetteLength: number,
  edges: LoadEdges,
  timing: RevTiming,
): void {
  const within = (event: { readonly timeS: number }): boolean => event.timeS >= span.fromS && event.timeS < span.toS;
  for (const shift of events.shifts) {
    if (!within(shift)) continue;
    const end = shift.toCog === cassetteLength - 1 ? 0 : shift.toCog === 0 ? 1 : 2;
    segment.dropChances[2]++;
    if (end < 2) segment.dropChances[end]++;
    if ((shift.outcome === 'unjudged' && !shift.weak) || shift.toCog < 0 || shift.toCog >= cassetteLength) continue;
    if (events.chainDrops.some((drop) => Math.abs(drop.timeS - shift.timeS) <= evidenceWeights.dropShadowS)) continue;
    const cell = cogCell(cassetteLength, shift.direction === 'to-larger', shift.toCog) * loadBins;
    if (timesCog(shift)) {
      const most = mostSpreads * timing.spread;
      segment.timed[cell / loadBins]++;
      segment.slowRevs[cell / loadBins] += Math.max(-most, Math.min(most, shift.crankRevs - timing.median));
    }
    const place = cell + loadBin(shift.torqueNm, edges);
    const weight = shift.weak ? evidenceWeights.weakShift : 1;
    const key = place * fitKinds + fitKind(shift);
    segment.fits.set(key, (segment.fits.get(key) ?? 0) + weight);
    outcomes.forEach((outcome, o) => {
      segment.shifts[place * outcomes.length + o] +=
        weight * (shift.outcome === 'unjudged' ? shift.probability[outcome] : Number(shift.outcome === outcome));
    });
  }
  for (const ghost of events.ghostShifts)
    if (within(ghost))
      segment.ghosts[cogCell(cassetteLength, ghost.toCog > ghost.fromCog, ghost.fromCog)] += ghost.confidence;
  for (const skip of events.skips) if (within(skip) && skip.cog >= 0) segment.skips[skip.cog] += skip.confidence;
  for (const drop of events.chainDrops)
    if (within(drop)) segment.drops[dropEnd(drop, cassetteLength)] += drop.confidence;
  for (let cog = 0; cog < cassetteLength; cog++)
    segment.pedallingS[cog] += (events.pedallingSByCog[cog] ?? 0) * span.timeShare;
}
