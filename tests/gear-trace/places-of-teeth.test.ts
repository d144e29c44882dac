import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placesOfTeeth } from '../../src/gear-trace/commands/places-of-teeth.ts';

/** Every way to give counts places that rise, as lists of places. */
function risingPlaces(counts: number, places: number, from = 0): number[][] {
  if (counts === 0) return [[]];
  return Array.from({ length: Math.max(0, places - from) }, (_, k) => from + k).flatMap((place) =>
    risingPlaces(counts - 1, places, place + 1).map((rest) => [place, ...rest]),
  );
}

const teethList = (minLength: number, maxLength: number) =>
  fc.uniqueArray(fc.integer({ min: 10, max: 52 }), { minLength, maxLength }).map((all) => all.sort((a, b) => a - b));

describe('places of recorded teeth that are not the bike’s', () => {
  const sizes = [11, 13, 15, 18, 21, 24, 28, 32];
  const read = (recorded: readonly number[]): (number | undefined)[] => {
    const { places } = placesOfTeeth(recorded, sizes);
    return recorded.map((teeth) => places.get(teeth));
  };

  it('follow one another where nearly all cogs were recorded, though single counts lie nearer to the next cog', () => {
    expect(read([11, 13, 15, 18, 21, 26, 30])).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it('are the nearest where few were recorded', () => {
    expect(read([26, 30])).toEqual([6, 7]);
    expect(read([14, 29])).toEqual([2, 6]);
  });

  it('leave out a cog that the teeth themselves show was not ridden', () => {
    expect(read([11, 13, 15, 18, 25, 29, 33])).toEqual([0, 1, 2, 3, 5, 6, 7]);
  });

  it('cost least of all readings that keep the order', () => {
    fc.assert(
      fc.property(teethList(1, 5), teethList(5, 7), (recorded, cassette) => {
        const costOf = (places: readonly number[]): number =>
          places.reduce((cost, place, i) => {
            const apart = Math.min(0.2, Math.abs(Math.log(recorded[i] / cassette[place])));
            const passed = i > 0 ? place - places[i - 1] - 1 : 0;
            return cost + apart + (0.1 * recorded.length * passed) / cassette.length;
          }, 0);
        const { places, cost } = placesOfTeeth(recorded, cassette);
        const read = recorded.map((teeth) => places.get(teeth) ?? -1);
        if (recorded.every((teeth) => cassette.includes(teeth))) return;
        expect(costOf(read)).toBeCloseTo(cost, 10);
        expect(cost).toBeCloseTo(Math.min(...risingPlaces(recorded.length, cassette.length).map(costOf)), 10);
      }),
    );
  });
});
