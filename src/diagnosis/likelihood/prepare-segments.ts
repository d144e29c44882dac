import { betaMidpoints } from '../../numeric/beta-distribution.ts';
import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { evidenceWeights } from '../assumptions.ts';
import { type EvidenceSegment, LOAD_BINS, outcomes } from '../evidence/evidence-table.ts';
import { FIT_KINDS, fitOf } from '../evidence/outcome-fit.ts';
import { type PreparedHalts, prepareHalts } from './halt-likelihood.ts';
import { type ZonedEvents, zonedEvents } from './rare-events.ts';
import { type PreparedRevs, prepareRevs } from './rev-likelihood.ts';
import { type CogRows, innerCogRows } from './stray-cog.ts';

const WIDTH = LOAD_BINS * outcomes.length;

/** Counts of one segment, ready to be weighed against rates again and again. */
export interface PreparedSegment {
  readonly segment: EvidenceSegment;
  readonly shifts: PreparedShifts;
  readonly revs: PreparedRevs;
  readonly events: ZonedEvents;
  readonly halts: PreparedHalts;
}

/** Shifts by cell (cog and direction); those of cell `i` run from `cellFrom[i]` to `cellFrom[i + 1]`. */
interface PreparedShifts {
  /** Where shifts stand among the chances of outcomes, the kind of their fit, and how many there are. */
  readonly places: Int32Array;
  readonly kinds: Int32Array;
  readonly counts: Float64Array;
  readonly cellFrom: Int32Array;
  /** Log likelihood of each cell under no cause at all, chance of that included. */
  readonly stray: Float64Array;
  readonly cogRows: CogRows;
}

/**
 * Prepares segments. A cell (cog and direction) with many shifts in all segments together counts for less than their
 * number: they are alike for reasons of their own.
 */
export function prepareSegments(segments: readonly EvidenceSegment[], revSpread: number): PreparedSegment[] {
  const totals = new Float64Array((segments[0]?.shifts.length ?? 0) / WIDTH);
  for (const segment of segments)
    for (let place = 0; place < segment.shifts.length; place++)
      totals[Math.floor(place / WIDTH)] += segment.shifts[place];
  const timed = new Float64Array(segments[0]?.timed.length ?? 0);
  for (const segment of segments) for (let cell = 0; cell < timed.length; cell++) timed[cell] += segment.timed[cell];
  const halts = prepareHalts(segments);
  return segments.map((segment, i) => ({
    segment,
    shifts: prepareShifts(segment, totals),
    revs: prepareRevs(segment, timed, revSpread),
    events: zonedEvents(segment),
    halts: halts[i],
  }));
}

/** So many shifts of one place (cell and load) whose records fit the outcomes in one way; places and kinds as offsets. */
interface AlikeShifts {
  readonly place: number;
  readonly kind: number;
  readonly count: number;
}

function prepareShifts(segment: EvidenceSegment, cellTotals: Float64Array): PreparedShifts {
  const places: number[] = [];
  const kinds: number[] = [];
  const counts: number[] = [];
  const cellFrom = [0];
  const stray: number[] = [];
  const cells: number[] = [];
  for (const [cell, shifts] of [...shiftsByCell(segment)].sort(([a], [b]) => a - b)) {
    const weight = 1 / (1 + cellTotals[cell] / evidenceWeights.shiftsThatCount);
    for (const { place, kind, count } of shifts) {
      places.push(place);
      kinds.push(kind);
      counts.push(count * weight);
    }
    cells.push(cell);
    cellFrom.push(places.length);
    stray.push(strayLogLikelihood(shifts, weight));
  }
  return {
    places: Int32Array.from(places),
    kinds: Int32Array.from(kinds),
    counts: Float64Array.from(counts),
    cellFrom: Int32Array.from(cellFrom),
    stray: Float64Array.from(stray),
    cogRows: innerCogRows(cells, cellTotals.length / 2),
  };
}

function shiftsByCell({ fits }: EvidenceSegment): Map<number, AlikeShifts[]> {
  const byCell = new Map<number, AlikeShifts[]>();
  for (const [key, count] of fits) {
    const place = Math.floor(key / FIT_KINDS);
    const cell = Math.floor(place / LOAD_BINS);
    const shifts = byCell.get(cell) ?? [];
    byCell.set(cell, shifts);
    shifts.push({ place: place * outcomes.length, kind: (key % FIT_KINDS) * outcomes.length, count });
  }
  return byCell;
}

/** Rates of trouble of a cell that follows no model, small ones likelier (`b` from 2 to 6); and how the trouble splits into late, missed and overshot. Assumptions of ours. */
const strayRates = betaMidpoints({ a: 0.7, b: 3.5 }, 16);
const straySplit = [0, 0.5, 0.4, 0.1];
const logStray = Math.log(evidenceWeights.strayCell);

/** Log likelihood of a cell's shifts, each counted by `weight`, if the cell follows no model. */
function strayLogLikelihood(shifts: readonly AlikeShifts[], weight: number): number {
  const logs = strayRates.map(() => 0);
  for (const { kind, count } of shifts)
    strayRates.forEach((rate, i) => {
      let fit = (1 - rate) * fitOf[kind];
      for (let o = 1; o < outcomes.length; o++) fit += rate * straySplit[o] * fitOf[kind + o];
      logs[i] += count * weight * Math.log(fit);
    });
  return logSumExp(logs) - Math.log(logs.length) + logStray;
}
