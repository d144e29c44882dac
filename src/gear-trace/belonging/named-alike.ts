import { range, rollup } from 'd3-array';
import type { RecordedPart } from '../commands/recorded-gears.ts';
import { shareOfTeeth } from './share-of-teeth.ts';

/**
 * Share of the cogs that two rides can be set side by side in which they name the same size, 0 to 1: the positions that both name, else the
 * sizes within the stretch of the cassette that both rode. A short ride keeps to a part of its cassette, so what lies beyond tells nothing.
 * NaN where nothing is left to compare, or a ride names fewer than two sizes.
 */
export function cogsNamedAlike(a: RecordedPart, b: RecordedPart): number {
  if (a.sizes.length < 2 || b.sizes.length < 2) return Number.NaN;
  if (countAlike(a, b)) return positionsAlike(a, b);
  const [inA, inB] = [withinReach(a, b), withinReach(b, a)];
  return inA.length === 0 || inB.length === 0 ? Number.NaN : shareOfTeeth(inA, inB);
}

/** The same of rings. Those without positions are set side by side as they stand: nothing shows that one bike has both. 1 where a ride names none. */
export const ringsNamedAlike = (a: RecordedPart, b: RecordedPart): number =>
  countAlike(a, b) ? positionsAlike(a, b) : shareOfTeeth(a.sizes, b.sizes);

/** Whether both rides name positions that count the same way. */
const countAlike = (a: RecordedPart, b: RecordedPart): boolean =>
  a.positions.length > 0 && b.positions.length > 0 && a.countsFrom === b.countsFrom;

/** Share of the positions that both name with the same size, of all to which both name one; NaN where there are none. */
function positionsAlike(a: RecordedPart, b: RecordedPart): number {
  const [inA, inB] = [sizesByPosition(a), sizesByPosition(b)];
  const both = [...inA.keys()].filter((position) => inB.has(position));
  const same = both.filter((position) => [...(inA.get(position) ?? [])].some((teeth) => inB.get(position)?.has(teeth)));
  return same.length / both.length;
}

/** The sizes that the records name at each position, mostly one. */
const sizesByPosition = ({ teeth, position }: RecordedPart): Map<number, Set<number>> =>
  rollup(
    range(teeth.length).filter((record) => teeth[record] > 0 && position[record] > 0),
    (records) => new Set(records.map((record) => teeth[record])),
    (record) => position[record],
  );

/** The sizes of `a` that lie between the smallest and the largest of `b`. */
const withinReach = (a: RecordedPart, b: RecordedPart): number[] =>
  a.sizes.filter((teeth) => teeth >= b.sizes[0] && teeth <= (b.sizes.at(-1) as number));
