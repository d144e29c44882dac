import { median, sum } from 'd3-array';
import { adjustmentNotes } from '../../adjustments/adjustment-notes.ts';
import { type AdjustmentGroup, adjustmentPeriods } from '../../adjustments/adjustment-periods.ts';
import { adjustmentsThatCount } from '../../adjustments/adjustments-that-count.ts';
import { type Look, looksOf } from '../../adjustments/looks.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisInput, DiagnosisRide } from '../diagnosis.ts';
import { addSegment, type EvidenceSegment, emptySegment, type LoadEdges, loadEdges } from './evidence-table.ts';
import { fillSegment, type RideStretch } from './fill-segment.ts';
import { type RevTiming, revTiming, USUAL_SPREAD } from './rev-timing.ts';
import { rideFrom } from './ride-from.ts';

/** Stretches of riding, the adjustments between them, and what had to be left out. */
export interface RidingEvidence {
  /** In order of time; one that has no place in it comes last. */
  readonly segments: readonly EvidenceSegment[];
  readonly groups: readonly AdjustmentGroup[];
  /** What was looked at and found right, in order of time. */
  readonly looks: readonly Look[];
  readonly edges: LoadEdges;
  /** Spread of the crank turns of clean shifts within a ride, the middle one of all rides. */
  readonly revSpread: number;
  /** Rides that were weighed, in order of time as far as they have a date. */
  readonly rides: readonly DiagnosisRide[];
  /** Those of them that have a place in that order. */
  readonly ridesInOrder: readonly DiagnosisRide[];
  /** Judged shifts of rides without a date, which were not weighed. */
  readonly undatedShifts: number;
  readonly notes: readonly string[];
}

/** What mends a ride without a date where there are adjustments. */
export const undatedCure = 'record it with its time, or leave the adjustments out';
const UNPLACED_NOTE =
  'A ride without a date has no place before or after the others, so it does not tell when a fault began: record it with its time.';

/** Older groups than these are forgotten, with the rides before them. */
const MOST_GROUPS = 4;
const MOST_SEGMENTS = 6;
const LEAST_SHIFTS_TO_SPLIT = 60;

interface Piece extends RideStretch {
  readonly ride: number;
  readonly startMs: number;
  readonly period: number;
}

/** Rides that can be set before or after the others: a ride alone needs no date for that. */
const inOrderOf = (rides: readonly DiagnosisRide[]): DiagnosisRide[] =>
  rides.filter((ride) => rides.length === 1 || hasClock(ride.startMs));

/** The rides with a place in the order of time cut into segments, then all without one together. */
function segmentsOf(
  evidence: Pick<RidingEvidence, 'rides' | 'ridesInOrder' | 'groups' | 'edges'>,
  timings: readonly RevTiming[],
  size: number,
): EvidenceSegment[] {
  const { rides, ridesInOrder, groups, edges } = evidence;
  const pieces = rides.flatMap((ride, i) => piecesOf(ride, i, groups));
  const isPlaced = ({ ride }: Piece): boolean => ridesInOrder.includes(rides[ride]);
  const placed = pieces.filter(isPlaced);
  const parts = Math.max(1, Math.min(3, Math.floor(MOST_SEGMENTS / Math.max(1, placed.length))));
  const fill = (part: Piece): EvidenceSegment => {
    const segment = emptySegment(size, { ...part, placed: isPlaced(part) });
    fillSegment(segment, part, { edges, timing: timings[part.ride] });
    return segment;
  };
  const segments = joinSegments(placed.flatMap((piece) => splitPiece(piece, parts)).map(fill));
  const [unplaced, ...others] = pieces.filter((piece) => !isPlaced(piece)).map(fill);
  for (const other of others) addSegment(unplaced, other);
  return unplaced ? [...segments, unplaced] : segments;
}

/** Cuts a ride where an adjustment was made during it. */
function piecesOf(ride: DiagnosisRide, index: number, groups: readonly AdjustmentGroup[]): Piece[] {
  const cutsS = groups
    .map((group) => (group.lastMs - ride.startMs) / 1000)
    .filter((cut) => cut > 0 && cut < ride.durationS);
  const edgesS = [0, ...cutsS, Number.POSITIVE_INFINITY];
  return edgesS.slice(0, -1).map((fromS, i) => {
    const startMs = ride.startMs + fromS * 1000;
    const length = Math.min(edgesS[i + 1], ride.durationS) - fromS;
    return {
      ride: index,
      events: ride.events,
      evidence: ride.evidence,
      startMs,
      fromS,
      toS: edgesS[i + 1],
      timeShare: edgesS.length === 2 ? 1 : length / ride.durationS,
      period: groups.filter((group) => hasClock(startMs) && group.lastMs <= startMs).length,
    };
  });
}

/** Cuts a piece into parts with as many shifts each, so that a fault that begins during a ride can be dated. */
function splitPiece(piece: Piece, parts: number): Piece[] {
  const times = piece.events.shifts
    .map((shift) => shift.timeS)
    .filter((timeS) => timeS >= piece.fromS && timeS < piece.toS)
    .sort((a, b) => a - b);
  const count = Math.min(parts, Math.floor(times.length / LEAST_SHIFTS_TO_SPLIT));
  if (count < 2) return [piece];
  const edgesS = Array.from({ length: count + 1 }, (_, i) =>
    i === 0 ? piece.fromS : i === count ? piece.toS : times[Math.floor((i * times.length) / count)],
  );
  return edgesS.slice(0, -1).map((fromS, i) => ({
    ...piece,
    fromS,
    toS: edgesS[i + 1],
    startMs: piece.startMs + (fromS - piece.fromS) * 1000,
    timeShare: piece.timeShare / count,
  }));
}

/** Joins neighbouring segments of one period until there are few enough. */
function joinSegments(segments: EvidenceSegment[]): EvidenceSegment[] {
  const joined = [...segments];
  const weight = (segment: EvidenceSegment): number => segment.dropChances[2];
  while (joined.length > MOST_SEGMENTS) {
    let best = -1;
    for (let i = 0; i + 1 < joined.length; i++) {
      if (joined[i].period !== joined[i + 1].period) continue;
      const sum = weight(joined[i]) + weight(joined[i + 1]);
      if (best < 0 || sum < weight(joined[best]) + weight(joined[best + 1])) best = i;
    }
    if (best < 0) break;
    addSegment(joined[best], joined[best + 1]);
    joined.splice(best + 1, 1);
  }
  return joined;
}

/** Reduces rides and adjustments to evidence. Rides that can tell nothing are left out with a note. */
export function buildEvidence(input: DiagnosisInput): RidingEvidence {
  const notes: string[] = [];
  let undatedShifts = 0;
  let rides = input.rides.filter((ride) => ride.evidence !== 'none').sort((a, b) => a.startMs - b.startMs);
  let { groups } = adjustmentPeriods(rides, adjustmentsThatCount(input.adjustments, input.bike.actuation));
  if (groups.length > 0 && !rides.every((ride) => hasClock(ride.startMs))) {
    notes.push(
      `A ride without a date cannot be set before or after an adjustment, so it was not weighed: ${undatedCure}.`,
    );
    undatedShifts = sum(
      rides.filter((ride) => !hasClock(ride.startMs)),
      ({ events }) => events.shifts.filter(({ outcome }) => outcome !== 'unjudged').length,
    );
    rides = rides.filter((ride) => hasClock(ride.startMs));
  }
  if (groups.length > MOST_GROUPS) {
    const before = groups[groups.length - MOST_GROUPS - 1];
    groups = groups.slice(-MOST_GROUPS);
    rides = rides.map((ride) => rideFrom(ride, before.lastMs)).filter((ride) => ride !== null);
    notes.push(
      `Only rides since ${utcDay(before.lastMs)} were weighed: older ones lie more than ${MOST_GROUPS} adjustments back.`,
    );
  }
  notes.push(...adjustmentNotes(groups, rides, input));
  const edges = loadEdges(rides.map((ride) => ride.events));
  const ridesInOrder = inOrderOf(rides);
  if (ridesInOrder.length < rides.length) notes.push(UNPLACED_NOTE);
  const timings = rides.map((ride) => revTiming(ride.events));
  const segments = segmentsOf({ rides, ridesInOrder, groups, edges }, timings, input.bike.cassette.length);
  const revSpread = median(timings.map(({ spread }) => spread)) ?? USUAL_SPREAD;
  const looks = looksOf(input.adjustments, input.bike.actuation);
  return { segments, groups, looks, edges, revSpread, rides, ridesInOrder, undatedShifts, notes };
}
