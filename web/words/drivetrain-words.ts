import type { Bike } from '../api/answers.ts';

/** "32 × 10–51, 12 cogs, cable". */
export function drivetrainLine(bike: Bike): string {
  const smallest = bike.cassette[0];
  const largest = bike.cassette[bike.cassette.length - 1];
  return `${bike.chainrings.join('/')} × ${smallest}–${largest}, ${bike.cassette.length} cogs, ${bike.actuation}`;
}
