import { directions } from '../../cogs/directions.ts';
import type { EvidenceKind } from '../../gear-trace/gear-trace.ts';
import type { DropSide, GhostShiftEvent, RideEvents, ShiftEvent } from '../../shifts/ride-events.ts';
import { evidenceWeights } from '../assumptions.ts';
import {
  cogCell,
  type EvidenceSegment,
  LOAD_BINS,
  type LoadEdges,
  loadBin,
  moveCell,
  outcomes,
} from './evidence-table.ts';
import { afterLargerShare, lastAskedBefore } from './last-asked.ts';
import { FIT_KINDS, fitKind } from './outcome-fit.ts';
import { MOST_SPREADS, type RevTiming, timesCog } from './rev-timing.ts';
import { inDropsShadow, untoldHalts } from './untold-halts.ts';

/** Where a dropped chain left: 0 past the largest cog, 1 past the smallest, 2 elsewhere. */
const ELSEWHERE = 2;
const dropEnd = {
  'past-largest': 0,
  'past-smallest': 1,
  chainring: ELSEWHERE,
  unknown: ELSEWHERE,
} as const satisfies Record<DropSide, number>;

/** A stretch of one ride: its events between two moments (seconds since the ride's start, `toS` excluded), and the share of its pedalling that lies between them. */
export interface RideStretch {
  readonly events: RideEvents;
  readonly evidence: EvidenceKind;
  readonly fromS: number;
  readonly toS: number;
  readonly timeShare: number;
}

/** By what the shifts of a stretch are sorted: the bike's usual loads, and the crank turns that the ride's shifts usually take. */
interface Usual {
  readonly edges: LoadEdges;
  readonly timing: RevTiming;
}

/** Adds what a stretch of riding shows to a segment. */
export function fillSegment(segment: EvidenceSegment, stretch: RideStretch, usual: Usual): void {
  const { events, evidence, fromS, toS } = stretch;
  const within = (event: { readonly timeS: number }): boolean => event.timeS >= fromS && event.timeS < toS;
  for (const shift of events.shifts) {
    if (!within(shift)) continue;
    if (evidence === 'full') addDropChance(segment, shift);
    if (!inDropsShadow(events, shift.timeS)) addShift(segment, shift, usual);
  }
  if (evidence === 'full') addPromptHalts(segment, stretch);
  for (const ghost of events.ghostShifts) if (within(ghost)) addGhost(segment, ghost, events.shifts);
  for (const skip of events.skips) if (within(skip) && skip.cog >= 0) segment.skips[skip.cog] += skip.confidence;
  const sideKnown = evidence === 'full' ? 1 : evidenceWeights.sideWithoutRecords;
  for (const drop of events.chainDrops) {
    if (!within(drop)) continue;
    const known = drop.toldByRider ? 1 : sideKnown;
    segment.drops[dropEnd[drop.side]] += drop.confidence * known;
    segment.drops[ELSEWHERE] += drop.confidence * (1 - known);
  }
  addPedalling(segment, stretch);
}

/** Adds the time pedalled on each cog. */
function addPedalling(segment: EvidenceSegment, { events, evidence, timeShare }: RideStretch): void {
  const cassetteLength = segment.pedallingS.length;
  const afterLarger = afterLargerShare(events.shifts, cassetteLength);
  for (let cog = 0; cog < cassetteLength; cog++) {
    const pedalledS = (events.pedallingSByCog[cog] ?? 0) * timeShare;
    segment.pedallingS[cog] += pedalledS;
    // without commands nobody can call a shift unasked: that none was seen says nothing
    if (evidence !== 'full') continue;
    const watchedS = events.watchedSByCog ? (events.watchedSByCog[cog] ?? 0) * timeShare : pedalledS;
    segment.watchedS[cogCell(cassetteLength, true, cog)] += watchedS * afterLarger[cog];
    segment.watchedS[cogCell(cassetteLength, false, cog)] += watchedS * (1 - afterLarger[cog]);
  }
}

/** Adds an unasked shift, by the way that the last shift was asked for; half to each where none was. */
function addGhost(segment: EvidenceSegment, ghost: GhostShiftEvent, shifts: readonly ShiftEvent[]): void {
  // a chain that goes at last where it was asked to go is the end of its missed shift, which counts already
  if (ghost.towardsCommand) return;
  const { fromCog, toCog, confidence } = ghost;
  const asked = lastAskedBefore(shifts, ghost.timeS);
  for (const direction of directions) {
    const weight = asked === null ? 0.5 : Number(asked === direction);
    segment.ghosts[moveCell(segment.pedallingS.length, direction === 'to-larger', toCog > fromCog, fromCog)] +=
      weight * confidence;
  }
}

/** Counts the halts that followed a shift at once, but for those of chains that are told as lost. */
function addPromptHalts(segment: EvidenceSegment, { events, fromS, toS, timeShare }: RideStretch): void {
  const halts = untoldHalts(events);
  if (!halts) return;
  const { ontoEnd, elsewhere } = halts;
  for (const { timeS, end, haltLogOdds } of ontoEnd) {
    if (!(timeS >= fromS && timeS < toS)) continue;
    segment.endShifts[dropEnd[`past-${end}`]]++;
    if (haltLogOdds !== null) segment.endHalts[dropEnd[`past-${end}`]].push(haltLogOdds);
  }
  for (const end of ['largest', 'smallest'] as const) {
    segment.otherShifts[dropEnd[`past-${end}`]] += elsewhere[end].shifts * timeShare;
    segment.otherHalts[dropEnd[`past-${end}`]] += elsewhere[end].halts * timeShare;
  }
}

/** Counts a shift among those after which a chain could have been lost, and seen to be. */
function addDropChance({ dropChances, pedallingS }: EvidenceSegment, { toCog }: ShiftEvent): void {
  dropChances[2]++;
  if (toCog === pedallingS.length - 1) dropChances[0]++;
  else if (toCog === 0) dropChances[1]++;
}

/** Adds one shift, if it was judged, or weighed by the rider's reaction alone, and asked the chain to move at all. */
function addShift(segment: EvidenceSegment, shift: ShiftEvent, { edges, timing }: Usual): void {
  const cassetteLength = segment.pedallingS.length;
  if ((shift.outcome === 'unjudged' && !shift.weak) || shift.toCog < 0 || shift.toCog >= cassetteLength) return;
  if (shift.cogsToCross === 0) return;
  const cell = cogCell(cassetteLength, shift.direction === 'to-larger', shift.toCog);
  if (timesCog(shift)) {
    const most = MOST_SPREADS * timing.spread;
    segment.timed[cell]++;
    segment.slowRevs[cell] += Math.max(-most, Math.min(most, shift.crankRevs - timing.median));
  }
  const place = cell * LOAD_BINS + loadBin(shift.torqueNm, edges);
  const weight = shift.weak ? evidenceWeights.weakShift : 1;
  const key = place * FIT_KINDS + fitKind(shift);
  segment.fits.set(key, (segment.fits.get(key) ?? 0) + weight);
  outcomes.forEach((outcome, o) => {
    segment.shifts[place * outcomes.length + o] +=
      weight * (shift.outcome === 'unjudged' ? shift.probability[outcome] : Number(shift.outcome === outcome));
  });
}
