import type { Bike } from './bike.ts';

/**
 * Distance between the middles of neighbouring cogs, mm, by number of cogs. 6 to 12: published drivetrain tables
 * (tests/checks/indexing.json), where makers differ by at most 0.15 mm for one number of cogs. 5 and 13 were found
 * nowhere and are our assumption: 5 as 6, 13 as 12.
 */
const pitchByCogCount: Readonly<Record<number, number>> = {
  5: 5.5,
  6: 5.5,
  7: 5.0,
  8: 4.8,
  9: 4.35,
  10: 3.95,
  11: 3.75,
  12: 3.55,
  13: 3.55,
};

/** Usual cog pitch for a number of cogs, mm. NaN outside 5 to 13. */
export function usualCogPitchMm(cogCount: number): number {
  return pitchByCogCount[cogCount] ?? Number.NaN;
}

/** The bike's cog pitch, mm: as its file says, else the usual one for its number of cogs. */
export function cogPitchMm(bike: Pick<Bike, 'cogPitchMm' | 'cassette'>): number {
  return bike.cogPitchMm ?? usualCogPitchMm(bike.cassette.length);
}
