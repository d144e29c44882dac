import { bisector } from 'd3-array';
import { DAY_MS, HOUR_MS } from '../numeric/time-units.ts';

/** A night within a tour may be this long; a longer break parts the records into groups. */
const PART_MS = 12 * HOUR_MS;
/** No ride rests for longer: behind such a break, the clock was wrong. */
const LONGEST_REST_MS = 7 * DAY_MS;
/** A group of fewer records than this, half a day or more from the rest, is no day of riding. */
const LEAST_RECORDS = 30;

interface Group {
  readonly first: number;
  readonly last: number;
  readonly count: number;
}

/**
 * Of the indices `order`, those whose times belong together; the others are of a clock that jumped. The largest group is the
 * ride. Other groups belong to it if no break towards it is over a week and they are no mere handful of records.
 *
 * @param timeMs finite, in any order
 */
export function mainSpan(timeMs: Float64Array, order: Uint32Array): Uint32Array {
  const groups = groupsOf(timeMs);
  const main = groups.reduce((best, group, i) => (group.count > groups[best].count ? i : best), 0);
  const kept = [...reach(groups, main, -1).reverse(), groups[main], ...reach(groups, main, 1)];
  if (kept.length === groups.length) return order;
  return order.filter((i) => isWithin(kept, timeMs[i]));
}

function groupsOf(timeMs: Float64Array): Group[] {
  const sorted = timeMs.slice().sort();
  const groups: Group[] = [];
  let start = 0;
  for (let i = 1; i <= sorted.length; i++) {
    if (i < sorted.length && sorted[i] - sorted[i - 1] <= PART_MS) continue;
    groups.push({ first: sorted[start], last: sorted[i - 1], count: i - start });
    start = i;
  }
  return groups;
}

/** The groups that belong to the ride on one side of its main group, nearest first. */
function reach(groups: readonly Group[], main: number, step: -1 | 1): Group[] {
  const belonging: Group[] = [];
  let edge = groups[main];
  for (let i = main + step; i >= 0 && i < groups.length; i += step) {
    const group = groups[i];
    if ((step > 0 ? group.first - edge.last : edge.first - group.last) > LONGEST_REST_MS) break;
    if (group.count < LEAST_RECORDS) continue;
    belonging.push(group);
    edge = group;
  }
  return belonging;
}

const afterStart = bisector(({ first }: Group) => first).right;

/** Whether a time is within one of `groups`, which are sorted. */
function isWithin(groups: readonly Group[], time: number): boolean {
  const group = groups[afterStart(groups, time) - 1];
  return group !== undefined && time <= group.last;
}
