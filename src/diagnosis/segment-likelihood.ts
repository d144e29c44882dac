import { betaMidpoints } from '../numeric/beta-distribution.ts';
import { logSumExp } from '../numeric/log-sum-exp.ts';
import { evidenceWeights } from './assumptions.ts';
import { type EvidenceSegment, loadBins, outcomes } from './evidence-table.ts';
import { fitKinds, fitOf } from './outcome-fit.ts';
import type { PulleyRates } from './pulley-rates.ts';
import { type PreparedRevs, prepareRevs, revLogLikelihood } from './rev-likelihood.ts';

const width = loadBins * outcomes.length;

/** Counts of one segment, ready to be weighed against rates again and again. */
export interface PreparedSegment {
  readonly segment: EvidenceSegment;
  /** Where shifts stand among the chances of outcomes, the kind of their fit, and how many there are; those of cell `i` run from `cellFrom[i]` to `cellFrom[i + 1]`. */
  readonly places: Int32Array;
  readonly kinds: Int32Array;
  readonly counts: Float64Array;
  readonly cellFrom: Int32Array;
  /** Log likelihood of each cell under no cause at all, chance of that included. */
  readonly stray: Float64Array;
  readonly revs: PreparedRevs;
  /** Zone of the cassette that each cog belongs to, and ghosts and skips by zone (ghosts to-larger first). */
  readonly zones: Int8Array;
  readonly zoneGhosts: Float64Array;
  readonly zoneSkips: Float64Array;
}

/** Unasked shifts and skips are rare: they are counted by zone, the two end cogs alone, the others in two halves. */
const zoneCount = 4;
function zoneOf(cog: number, cassetteLength: number): number {
  if (cog === 0) return 0;
  if (cog === cassetteLength - 1) return 3;
  return cog < cassetteLength / 2 ? 1 : 2;
}

const logStray = Math.log(evidenceWeights.strayCell);
const logModel = Math.log(1 - evidenceWeights.strayCell);

/** Rates of trouble of a cell that follows no model, small ones likelier (`b` from 2 to 6); and how the trouble splits into late, missed and overshot. Assumptions of ours. */
const strayRates = betaMidpoints({ a: 0.7, b: 3.5 }, 16);
const straySplit = [0, 0.5, 0.4, 0.1];

function prepare(segment: EvidenceSegment, cellTotals: Float64Array, revs: PreparedRevs): PreparedSegment {
  const byCell = new Map<number, [number, number, number][]>();
  for (const [key, count] of segment.fits) {
    const place = Math.floor(key / fitKinds);
    const cell = Math.floor(place / loadBins);
    const list = byCell.get(cell) ?? [];
    byCell.set(cell, list);
    list.push([place * outcomes.length, (key % fitKinds) * outcomes.length, count]);
  }
  const places: number[] = [];
  const kinds: number[] = [];
  const counts: number[] = [];
  const cellFrom = [0];
  const stray: number[] = [];
  for (const cell of [...byCell.keys()].sort((a, b) => a - b)) {
    const weight = 1 / (1 + cellTotals[cell] / evidenceWeights.shiftsThatCount);
    const rates = strayRates.map(() => 0);
    for (const [place, kind, count] of byCell.get(cell) ?? []) {
      places.push(place);
      kinds.push(kind);
      counts.push(count * weight);
      strayRates.forEach((rate, i) => {
        let fit = (1 - rate) * fitOf[kind];
        for (let o = 1; o < outcomes.length; o++) fit += rate * straySplit[o] * fitOf[kind + o];
        rates[i] += count * weight * Math.log(fit);
      });
    }
    cellFrom.push(places.length);
    stray.push(logSumExp(rates) - Math.log(rates.length) + logStray);
  }
  const size = segment.pedallingS.length;
  const zones = Int8Array.from({ length: size }, (_, cog) => zoneOf(cog, size));
  const zoneGhosts = new Float64Array(2 * zoneCount);
  const zoneSkips = new Float64Array(zoneCount);
  for (let cog = 0; cog < size; cog++) {
    zoneGhosts[zones[cog]] += segment.ghosts[cog];
    zoneGhosts[zoneCount + zones[cog]] += segment.ghosts[size + cog];
    zoneSkips[zones[cog]] += segment.skips[cog];
  }
  return {
    segment,
    places: Int32Array.from(places),
    kinds: Int32Array.from(kinds),
    counts: Float64Array.from(counts),
    cellFrom: Int32Array.from(cellFrom),
    stray: Float64Array.from(stray),
    revs,
    zones,
    zoneGhosts,
    zoneSkips,
  };
}

/**
 * Prepares segments. A cell (cog and direction) with many shifts in all segments together counts for less than their
 * number: they are alike for reasons of their own.
 */
export function prepareSegments(segments: readonly EvidenceSegment[], revSpread: number): PreparedSegment[] {
  const totals = new Float64Array((segments[0]?.shifts.length ?? 0) / width);
  for (const segment of segments)
    for (let place = 0; place < segment.shifts.length; place++)
      totals[Math.floor(place / width)] += segment.shifts[place];
  const timed = new Float64Array(segments[0]?.timed.length ?? 0);
  for (const segment of segments) for (let cell = 0; cell < timed.length; cell++) timed[cell] += segment.timed[cell];
  return segments.map((segment) => prepare(segment, totals, prepareRevs(segment, timed, revSpread)));
}

/** Log likelihood of a count that clumps (negative binomial, constant terms left out). `shape` small: heavy tail. */
function clumpedCount(count: number, mean: number, shape: number): number {
  const none = -shape * Math.log1p(mean / shape);
  return count === 0 ? none : count * Math.log(mean / (mean + shape)) + none;
}

/** How unasked shifts and skips clump, and dropped chains: small shapes have a heavy tail (assumptions of ours, 0.5 to 2). */
const eventShape = 0.8;
const dropShape = 1;
/** Keeps the mean of what cannot happen above 0. */
const hardlyEver = 1e-9;

const zoneMeans = new Float64Array(3 * zoneCount);

/** Unasked shifts, skips and dropped chains of a segment. */
function rareEvents(prepared: PreparedSegment, rates: PulleyRates): number {
  const { segment, zones, zoneGhosts, zoneSkips } = prepared;
  const { pedallingS } = segment;
  const size = pedallingS.length;
  zoneMeans.fill(hardlyEver);
  for (let cog = 0; cog < size; cog++) {
    zoneMeans[zones[cog]] += rates.ghostPerS[cog] * pedallingS[cog];
    zoneMeans[zoneCount + zones[cog]] += rates.ghostPerS[size + cog] * pedallingS[cog];
    zoneMeans[2 * zoneCount + zones[cog]] += rates.skipPerS[cog] * pedallingS[cog];
  }
  let total = 0;
  for (let i = 0; i < 2 * zoneCount; i++) total += clumpedCount(zoneGhosts[i], zoneMeans[i], eventShape);
  for (let i = 0; i < zoneCount; i++) total += clumpedCount(zoneSkips[i], zoneMeans[2 * zoneCount + i], eventShape);
  for (let end = 0; end < 3; end++) {
    const chances = Math.max(segment.dropChances[end], segment.drops[end]);
    total += clumpedCount(segment.drops[end], rates.drop[end] * chances + hardlyEver, dropShape);
  }
  return total;
}

/** Log likelihood of one segment under rates, up to terms that are the same for every cause. */
export function segmentLogLikelihood(prepared: PreparedSegment, rates: PulleyRates): number {
  const { places, kinds, counts, cellFrom, stray } = prepared;
  const { outcome } = rates;
  let total = 0;
  for (let cell = 0; cell < stray.length; cell++) {
    let model = logModel;
    const to = cellFrom[cell + 1];
    for (let i = cellFrom[cell]; i < to; i++) {
      const p = places[i];
      const k = kinds[i];
      model +=
        counts[i] *
        Math.log(
          outcome[p] * fitOf[k] +
            outcome[p + 1] * fitOf[k + 1] +
            outcome[p + 2] * fitOf[k + 2] +
            outcome[p + 3] * fitOf[k + 3],
        );
    }
    const ahead = model - stray[cell];
    total +=
      ahead > 20 ? model : ahead > 0 ? model + Math.log1p(Math.exp(-ahead)) : stray[cell] + Math.log1p(Math.exp(ahead));
  }
  return total + revLogLikelihood(prepared.revs, rates.slowRevs) + rareEvents(prepared, rates);
}
