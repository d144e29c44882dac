import { figure } from '../../numeric/figure.ts';
import { listed } from '../../numeric/listed.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { UnexplainedPlace } from './unexplained-places.ts';

/** Places that are told together: shifts from either side, or in one direction. */
interface Told {
  readonly where: string;
  readonly shifts: number;
  readonly trouble: number;
}

const sides: readonly (Direction | null)[] = [null, 'to-larger', 'to-smaller'];
const towards = (direction: Direction | null): string => (direction === null ? '' : `to ${direction.slice(3)} `);

/** An end cog is reached from one side alone, so its direction goes without saying. */
const isEnd = (cog: number | null, cassette: readonly number[]): boolean => cog === 0 || cog === cassette.length - 1;

function told(places: readonly UnexplainedPlace[], cassette: readonly number[]): Told[] {
  return sides.flatMap((direction) => {
    const own = places.filter((place) => place.direction === direction);
    if (own.length === 0) return [];
    const named = own.flatMap(({ cog }) => (cog === null ? [] : [cog]));
    const way = own.every(({ cog }) => isEnd(cog, cassette)) ? '' : towards(direction);
    const onto =
      named.length === own.length
        ? `onto the ${listed(named.map((cog) => cassette[cog]))}`
        : named.length > 0
          ? `onto the ${listed(named.map((cog) => cassette[cog]))}, and onto the other cogs`
          : 'onto the other cogs';
    return [
      {
        where: `shifts ${way}${onto}`,
        shifts: own.reduce((sum, one) => sum + one.shifts, 0),
        trouble: own.reduce((sum, one) => sum + one.trouble, 0),
      },
    ];
  });
}

/** Which shifts go wrong: `shifts onto the 17`. */
export const placesInWords = (places: readonly UnexplainedPlace[], cassette: readonly number[]): string =>
  listed(told(places, cassette).map(({ where }) => where));

/** The same with their counts: `40 of 40 shifts onto the 17`. */
export const countsInWords = (places: readonly UnexplainedPlace[], cassette: readonly number[]): string =>
  listed(
    told(places, cassette).map(({ where, shifts, trouble }) => `${figure(trouble)} of ${figure(shifts)} ${where}`),
  );

/** How many of them were to be expected. */
export function foretoldInWords(places: readonly UnexplainedPlace[]): string {
  const foretold = Math.round(places.reduce((sum, one) => sum + one.foretold, 0));
  return foretold < 1
    ? 'hardly one was to be expected'
    : `about ${figure(foretold)} ${foretold === 1 ? 'was' : 'were'} to be expected`;
}
