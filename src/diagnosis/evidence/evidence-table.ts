import type { RideEvents } from '../../shifts/ride-events.ts';

/** Torque bins of a shift: low, middle, high, unknown. */
export const LOAD_BINS = 4;
/** Outcomes in the order of the columns. */
export const outcomes = ['clean', 'late', 'missed', 'overshot'] as const;

/** Index of a cog and direction: all shifts to-larger first. */
export function cogCell(cassetteLength: number, larger: boolean, cog: number): number {
  return (larger ? 0 : cassetteLength) + cog;
}

/** Index of a move off a cog: as `cogCell`, those after a shift asked for to-larger first. */
export function moveCell(cassetteLength: number, afterLarger: boolean, larger: boolean, cog: number): number {
  return (afterLarger ? 0 : 2 * cassetteLength) + cogCell(cassetteLength, larger, cog);
}

/**
 * What was seen in one stretch of riding, reduced to what the model needs: its size does not grow with the ride.
 * `shifts[(cogCell * loadBins + load) * 4 + outcome]` are counts by the named outcome. Ghosts lie under the way the last shift was asked
 * for, the cog the chain left and the direction it went (`moveCell`). Drops and shifts by which end of the cassette they belong to.
 */
export interface EvidenceSegment {
  /** How many groups of adjustments lie before it. */
  readonly period: number;
  /** Unix milliseconds of its start; see `hasClock`. */
  readonly startMs: number;
  /** Which ride (in order of time) it begins in. */
  readonly ride: number;
  /** False where it has no place among the others: its rides have no date. */
  readonly placed: boolean;
  readonly shifts: Float64Array;
  /** Weighed shifts by `cell with load * FIT_KINDS + kind of fit`. */
  readonly fits: Map<number, number>;
  /** Clean shifts by one cog, by cog and direction, and the sum of the crank turns they took beyond the ride's median. */
  readonly timed: Float64Array;
  readonly slowRevs: Float64Array;
  readonly ghosts: Float64Array;
  readonly pedallingS: Float64Array;
  /** The part of it in which an unasked shift could be told, by the way the last shift was asked for and the cog (`cogCell`). */
  readonly watchedS: Float64Array;
  readonly skips: Float64Array;
  /** Chain drops: past the largest cog, past the smallest, elsewhere. */
  readonly drops: Float64Array;
  /** Shifts commanded onto the largest cog, onto the smallest, and all. */
  readonly dropChances: Float64Array;
  /** Shifts asked for onto the largest and onto the smallest cog after which a prompt halt could have followed, and those onto other cogs in the same direction. */
  readonly endShifts: Float64Array;
  readonly otherShifts: Float64Array;
  /** Of those onto each end the halts, by the log odds that all else says of a lost chain; and how many followed the others. Chains told as lost are not among them. */
  readonly endHalts: readonly [number[], number[]];
  readonly otherHalts: Float64Array;
}

/** A segment in which nothing was seen yet. */
export function emptySegment(
  cassetteLength: number,
  { period, startMs, ride, placed }: Pick<EvidenceSegment, 'period' | 'startMs' | 'ride' | 'placed'>,
): EvidenceSegment {
  return {
    period,
    startMs,
    ride,
    placed,
    fits: new Map(),
    shifts: new Float64Array(2 * cassetteLength * LOAD_BINS * outcomes.length),
    timed: new Float64Array(2 * cassetteLength),
    slowRevs: new Float64Array(2 * cassetteLength),
    ghosts: new Float64Array(4 * cassetteLength),
    pedallingS: new Float64Array(cassetteLength),
    watchedS: new Float64Array(2 * cassetteLength),
    skips: new Float64Array(cassetteLength),
    drops: new Float64Array(3),
    dropChances: new Float64Array(3),
    endShifts: new Float64Array(2),
    otherShifts: new Float64Array(2),
    endHalts: [[], []],
    otherHalts: new Float64Array(2),
  };
}

/** Adds every column of `from` to `to`. */
export function addSegment(to: EvidenceSegment, from: EvidenceSegment): void {
  for (const column of [
    'shifts',
    'timed',
    'slowRevs',
    'ghosts',
    'pedallingS',
    'watchedS',
    'skips',
    'drops',
    'dropChances',
    'endShifts',
    'otherShifts',
    'otherHalts',
  ] as const)
    for (let i = 0; i < to[column].length; i++) to[column][i] += from[column][i];
  from.endHalts.forEach((halts, end) => {
    to.endHalts[end].push(...halts);
  });
  for (const [key, count] of from.fits) to.fits.set(key, (to.fits.get(key) ?? 0) + count);
}

/** Torque above which a shift counts as middle and as high load, Nm: the median and the 80 % point of the rides. */
export interface LoadEdges {
  readonly middleNm: number;
  readonly highNm: number;
}

/** Shares of the shifts up to where their load is soft, and up to where it is not yet hard; fewer shifts than these tell neither. */
const SOFT_SHARE = 0.5;
const FIRM_SHARE = 0.8;
const LEAST_WITH_TORQUE = 20;

/** NaN edges when too few shifts carry torque. */
export function loadEdges(rides: readonly RideEvents[]): LoadEdges {
  const torques = rides
    .flatMap((ride) => ride.shifts.filter((shift) => shift.outcome !== 'unjudged').map((shift) => shift.torqueNm))
    .filter((torque) => Number.isFinite(torque))
    .sort((a, b) => a - b);
  if (torques.length < LEAST_WITH_TORQUE) return { middleNm: Number.NaN, highNm: Number.NaN };
  return {
    middleNm: torques[Math.floor(torques.length * SOFT_SHARE)],
    highNm: torques[Math.floor(torques.length * FIRM_SHARE)],
  };
}

/** Load bin of a shift: 0 soft, 1 firm, 2 hard, 3 where torque or edges are not known. */
export function loadBin(torqueNm: number, edges: LoadEdges): number {
  if (!Number.isFinite(torqueNm) || !Number.isFinite(edges.middleNm)) return 3;
  if (torqueNm > edges.highNm) return 2;
  return torqueNm > edges.middleNm ? 1 : 0;
}
