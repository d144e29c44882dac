import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import { movesOnto } from '../../src/cogs/trouble-tally.ts';
import type { Outcome, RideEvents, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { madeShift } from './made-shift.ts';

const shift = (fromCog: number, toCog: number, outcome: Outcome): ShiftEvent => madeShift(0, fromCog, toCog, outcome);
const ride = (shifts: ShiftEvent[], ghosts: [number, number][] = []): RideEvents => ({
  shifts,
  ghostShifts: ghosts.map(([fromCog, toCog]) => ({ timeS: 0, fromCog, toCog, heldS: 2, confidence: 1, torqueNm: 0 })),
  chainDrops: [],
  skips: [],
  pedallingSByCog: new Float64Array(5),
});

describe('tally by cog and direction', () => {
  it('counts judged shifts by the cog they were commanded onto, over several rides', () => {
    const rides = [
      ride([shift(1, 2, 'clean'), shift(1, 2, 'late'), shift(3, 2, 'missed'), shift(1, 2, 'unjudged')]),
      ride(
        [shift(0, 2, 'overshot')],
        [
          [2, 1],
          [1, 2],
        ],
      ),
    ];
    const tallies = tallyCogs(rides, 5);
    expect(tallies.find((tally) => tally.cog === 2 && tally.direction === 'to-larger')).toMatchObject({
      shifts: 3,
      late: 1,
      missed: 0,
      overshot: 1,
      ghostShifts: 1,
      troubleRate: 2 / 3,
    });
    expect(tallies.find((tally) => tally.cog === 2 && tally.direction === 'to-smaller')).toMatchObject({
      shifts: 1,
      missed: 1,
    });
    expect(tallies.find((tally) => tally.cog === 1 && tally.direction === 'to-smaller')?.ghostShifts).toBe(1);
  });

  it('counts an unasked move onto its own cog alone', () => {
    const moves: [number, number][] = [
      [1, 2],
      [3, 4],
      [0, 1],
    ];
    const { ghostShifts } = movesOnto(ride([], moves), 2, 'to-larger');
    expect(ghostShifts.map(({ toCog }) => toCog)).toEqual([2]);
  });

  it('lists every way the chain can arrive, and knows nothing of an empty one', () => {
    const tallies = tallyCogs([], 5);
    expect(tallies).toHaveLength(8);
    expect(tallies.some((tally) => tally.cog === 0 && tally.direction === 'to-larger')).toBe(false);
    expect(tallies.some((tally) => tally.cog === 4 && tally.direction === 'to-smaller')).toBe(false);
    for (const tally of tallies) expect(tally).toMatchObject({ shifts: 0, troubleRate: Number.NaN, low: 0, high: 1 });
  });

  it('counts a lost chain at the end cog it was lost past, and one of no known end nowhere', () => {
    const lost = (side: RideEvents['chainDrops'][number]['side']) => ({
      timeS: 0,
      side,
      afterShiftTo: null,
      confidence: 1,
    });
    const rides = [
      { ...ride([]), chainDrops: [lost('past-smallest'), lost('unknown'), lost('past-largest')] },
      { ...ride([]), chainDrops: [lost('past-smallest'), lost('chainring')] },
    ];
    const found = tallyCogs(rides, 5).filter(({ chainDrops }) => chainDrops > 0);
    expect(found.map(({ cog, direction, chainDrops }) => [cog, direction, chainDrops])).toEqual([
      [0, 'to-smaller', 2],
      [4, 'to-larger', 1],
    ]);
  });

  it('loses no judged shift', () => {
    const outcomes: Outcome[] = ['clean', 'late', 'missed', 'overshot', 'unjudged'];
    const anyShift = fc
      .tuple(fc.nat(4), fc.nat(4), fc.constantFrom(...outcomes))
      .filter(([from, to]) => from !== to)
      .map(([from, to, outcome]) => shift(from, to, outcome));
    fc.assert(
      fc.property(fc.array(anyShift), (shifts) => {
        const tallies = tallyCogs([ride(shifts)], 5);
        const sum = (pick: (tally: (typeof tallies)[number]) => number) =>
          tallies.reduce((all, one) => all + pick(one), 0);
        return (
          sum((one) => one.shifts) === shifts.filter((one) => one.outcome !== 'unjudged').length &&
          sum((one) => one.late) === shifts.filter((one) => one.outcome === 'late').length
        );
      }),
    );
  });
});
