import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { bikeRolloutMm } from '../../src/drivetrain/bike-rollout.ts';
import { developmentM } from '../../src/drivetrain/development.ts';
import { belongingLimits } from '../../src/gear-trace/belonging/belonging-limits.ts';
import { fitsBike, type LikelyBike } from '../../src/gear-trace/belonging/fits-bike.ts';
import { ridesApart } from '../../src/gear-trace/belonging/rides-apart.ts';
import { shareOfTeeth, shareOwn } from '../../src/gear-trace/belonging/share-of-teeth.ts';
import { rungsOf, shareOnGears } from '../../src/gear-trace/belonging/share-on-gears.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { madeBike, madeLog } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';

const { together, placed } = belongingLimits;
const rolloutMm = 2100;
const on = (cogs: readonly number[], share = 1) =>
  cogs.map((cog) => ({ logDevelopment: Math.log(share * developmentM(rolloutMm, 40, cog)), seconds: 60 }));
const bike: Bike = { name: 'One ring', chainrings: [40], cassette: [11, 13, 15, 17, 20, 23], actuation: 'cable' };

describe('shareOnGears', () => {
  it("is the share of steady seconds in the bike's gears", () => {
    expect(shareOnGears(on(bike.cassette), bike, rolloutMm, placed)).toBe(1);
    expect(shareOnGears(on([11, 13, 15, 17, 19]), bike, rolloutMm, placed)).toBeCloseTo(0.8, 9);
    expect(shareOnGears(on([10, 12, 14, 16, 18]), bike, rolloutMm, placed)).toBe(0);
  });

  it('allows the rollout to be off as far as the purpose does', () => {
    const larger = on(bike.cassette, 1.015);
    expect(shareOnGears(larger, bike, rolloutMm, placed)).toBe(0);
    expect(shareOnGears(larger, bike, rolloutMm, together)).toBe(1);
    expect(shareOnGears(on(bike.cassette, 1.04), bike, rolloutMm, together)).toBe(0);
  });

  it('tells nothing of few rungs or without a rollout', () => {
    expect(shareOnGears(on([11, 13, 15, 17]), bike, rolloutMm, placed)).toBeNaN();
    expect(shareOnGears(on(bike.cassette), bike, Number.NaN, placed)).toBeNaN();
  });
});

describe('shares of teeth', () => {
  it("are of what is named: by the bike's own, and by the one that names fewer", () => {
    expect(shareOwn(Uint8Array.of(11, 0, 13, 14, 15), bike.cassette)).toBe(0.75);
    expect(shareOwn(Uint8Array.of(0), bike.cassette)).toBe(1);
    expect(shareOfTeeth([11, 13, 15, 17], [11, 13])).toBe(1);
    expect(shareOfTeeth([11, 13, 15, 17], [11, 12, 13, 16])).toBe(0.5);
    expect(shareOfTeeth([], [11])).toBe(1);
  });
});

describe('one measure for all purposes', () => {
  const log = rideAllCogs().log();
  const silent = withoutRecords(log);
  const other: Bike = { ...madeBike, cassette: madeBike.cassette.map((teeth) => teeth + 1) };
  const likely = (one: Bike, mm: number, recorded: LikelyBike['recorded'] = { rear: [], front: [] }): LikelyBike => ({
    bike: one,
    rolloutMm: mm,
    guessed: false,
    recorded,
  });
  const standing = madeLog({ speedMps: [0], cadenceRpm: [0] });
  /** What a ride without gear records is to a bike whose rollout is known to so large a share. */
  const saidOf = (one: Bike, share: number): string => {
    const mm = share * bikeRolloutMm(madeBike);
    const fits = fitsBike(silent, rungsOf(silent), likely(one, mm)) > 0;
    const apart = ridesApart([silent], { bike: one, rolloutMm: mm, ride: standing }).length > 0;
    return [fits && 'fits', apart && 'apart'].filter(Boolean).join(' and ') || 'in doubt';
  };

  it('never calls a ride apart from a bike on which it would be put', () => {
    expect([0.96, 0.985, 0.995, 1, 1.005, 1.015, 1.04].map((share) => saidOf(madeBike, share))).toEqual([
      'apart',
      'in doubt',
      'fits',
      'fits',
      'fits',
      'in doubt',
      'apart',
    ]);
    expect(saidOf(other, 1)).toBe('apart');
  });

  it('goes by the teeth where both record them', () => {
    const told = (rear: readonly number[]) => likely(other, bikeRolloutMm(madeBike), { rear, front: [40] });
    expect(fitsBike(log, [], told(madeBike.cassette))).toBe(1);
    expect(fitsBike(log, [], told(other.cassette))).toBe(0);
  });
});
