import { range } from 'd3-array';
import { directions } from '../../cogs/directions.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { cogCell } from '../evidence/evidence-table.ts';
import type { ForetoldTrouble } from './foretold-trouble.ts';
import { againstForetold, moreThanForetold, type TroubleAgainst } from './more-than-foretold.ts';
import type { SeenTrouble } from './seen-trouble.ts';
import { FEWEST_SURE } from './sure-count.ts';

/** Shifts onto a cog (cassette index), more of which went wrong than a cause foretells. */
export interface UnexplainedPlace {
  /** Null: onto the other cogs that were ridden, all of them together. */
  readonly cog: number | null;
  /** Null: from either side. */
  readonly direction: Direction | null;
  readonly shifts: number;
  readonly trouble: number;
  /** How many of them were to go wrong. */
  readonly foretold: number;
}

/** Chance of so much trouble anywhere on a bike that is as the cause has it; it is shared among all the places looked at. */
const BY_CHANCE = 0.01;
/** Where one place is unexplained, or two are by this, others need no more to be told beside it. */
const beside = { mostChance: 0.01, fewestSure: 3 };
/** How far a cog may be from what is foretold of it, and a whole direction (standard deviation of the log odds). Assumptions of ours. */
const UNLIKENESS = { cog: 0.7, direction: 0.4 } as const;
/** Both sides of a cog are named where each goes wrong at least this often, as a part of both together. */
const EITHER_SIDE = 0.5;

/**
 * The places where more shifts went wrong than a cause foretells: each cog in each direction is looked at, each cog from
 * both sides, and what is left of each direction as a whole.
 *
 * @param all what was seen, by cog and direction (`cogCell`)
 * @param bikes the cause's imagined bikes
 */
export function unexplainedPlaces(all: readonly SeenTrouble[], bikes: readonly ForetoldTrouble[]): UnexplainedPlace[] {
  const size = all.length / 2;
  const cellsOf = (cog: number): number[] => directions.map((one) => cogCell(size, one === 'to-larger', cog));
  const ridden = (cell: number): boolean => all[cell].shifts > 0;
  const cells = range(all.length).filter(ridden);
  const bothSides = range(size)
    .map(cellsOf)
    .filter((sides) => sides.every(ridden));
  const strict = {
    mostChance: BY_CHANCE / (cells.length + bothSides.length + directions.length),
    fewestSure: FEWEST_SURE,
  };
  const onCog = (some: readonly number[]): TroubleAgainst => againstForetold(some, all, bikes, UNLIKENESS.cog);
  const found = new Set<number>();
  for (const cell of cells) if (moreThanForetold(onCog([cell]), strict)) found.add(cell);
  for (const sides of bothSides)
    if (moreThanForetold(onCog(sides), strict)) for (const cell of sidesToBlame(sides, all)) found.add(cell);
  const more = cells.filter((cell) => moreThanForetold(onCog([cell]), beside));
  if (found.size > 0 || more.length > 1) for (const cell of more) found.add(cell);
  const rest = directions.flatMap((direction) => {
    const left = range(size)
      .map((cog) => cogCell(size, direction === 'to-larger', cog))
      .filter((cell) => !found.has(cell));
    const against = againstForetold(left, all, bikes, UNLIKENESS.direction);
    return moreThanForetold(against, strict) ? [place(null, direction, against)] : [];
  });
  const named = range(size).flatMap((cog) => {
    const sides = cellsOf(cog).filter((cell) => found.has(cell));
    const direction = sides.length === 2 ? null : directions[cellsOf(cog).indexOf(sides[0])];
    return sides.length > 0 ? [place(cog, direction, onCog(sides))] : [];
  });
  return [...named, ...rest];
}

const place = (
  cog: number | null,
  direction: Direction | null,
  { seen: { shifts, trouble }, foretold }: TroubleAgainst,
): UnexplainedPlace => ({ cog, direction, shifts, trouble, foretold: foretold * shifts });

/** The sides from which a cog is reached badly. */
function sidesToBlame(sides: readonly number[], all: readonly SeenTrouble[]): readonly number[] {
  const rate = (some: readonly number[]): number =>
    some.reduce((sum, cell) => sum + all[cell].trouble, 0) / some.reduce((sum, cell) => sum + all[cell].shifts, 0);
  return sides.filter((cell) => rate([cell]) >= EITHER_SIDE * rate(sides));
}
