import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { anotherBike, moreGears, otherCogs } from '../../src/gear-trace/belonging/another-bike.ts';
import { gearRecords, madeLog } from './made-ride.ts';

const bike: Bike = {
  name: 'Road',
  chainrings: [34, 50],
  cassette: [11, 13, 15, 17, 19, 21, 24, 28],
  actuation: 'cable',
};
type Rows = Parameters<typeof gearRecords>[0];
const twice = (rows: readonly Omit<Rows[number], 'timeS'>[]): Rows =>
  [...rows, ...rows].map((row, timeS) => ({ timeS, ...row }));
const recording = (rows: Rows) => madeLog({ speedMps: [5, 5], cadenceRpm: [80, 80], gearRecords: gearRecords(rows) });
const message = (rows: Rows, shown: (number | null)[] | null = null) =>
  anotherBike(recording(rows), bike, shown && { cassette: shown })?.message ?? null;
const cogs = (teeth: readonly number[]): Rows => twice(teeth.map((rearTeeth) => ({ rearTeeth, frontTeeth: 34 })));

const code = (rows: Rows, shown: (number | null)[] | null = null) =>
  anotherBike(recording(rows), bike, shown && { cassette: shown })?.code ?? null;

describe('anotherBike', () => {
  it('tells more gears than the bike has from other cogs and from slips of the recorder', () => {
    expect(code(cogs([10, 12, 14, 16, 18, 21, 24, 28, 33]), bike.cassette)).toBe(moreGears);
    expect(code(cogs([12, 14, 16, 18, 22]))).toBe(otherCogs);
    // one odd size beside all of the bike's own
    expect(code(cogs([...bike.cassette, 27]), bike.cassette)).toBe(otherCogs);
    expect(code([...twice(bike.cassette.map((_, i) => ({ rear: i + 1 }))), { timeS: 99, rear: 9 }])).toBeNull();
  });

  it('names both where more cogs are recorded than the bike has', () => {
    expect(message(cogs([10, 12, 14, 16, 18, 21, 24, 28, 33]), bike.cassette)).toBe(
      'This ride looks like another bike\'s: its gear records name 9 cogs (10-12-14-16-18-21-24-28-33) and 1 ring (34), but the bike "Road" has 8 cogs (11-13-15-17-19-21-24-28) and 2 rings (34-50). Read it with its own bike, or leave it out.',
    );
    expect(message(twice([{ rear: 9 }, { rear: 3 }]), bike.cassette)).toMatch(/name 9 cogs, but/);
    // the positions tell of cogs that the ride did not use
    expect(message(twice([9, 3].map((rear) => ({ rear, rearTeeth: 30 - 2 * rear }))))).toMatch(
      /name 9 cogs \(teeth named: 12-24\), but/,
    );
    expect(message(twice([{ rear: 3, front: 3 }]), bike.cassette)).toMatch(/name 3 cogs and 3 rings, but/);
  });

  it('tells a bike of which a cog was not written down, where every cog that is named is one of its own', () => {
    const beyond = bike.cassette.map((rearTeeth, i) => ({ rear: i + 2, rearTeeth }));
    expect(message(twice(beyond))).toMatch(
      /has 8 cogs .*\. If it is this bike's, 1 cog is missing from its description: write in every cog\. Else read it with its own bike, or leave it out\.$/,
    );
    const odd = beyond.map((row, i) => (i === 3 ? { ...row, rearTeeth: 18 } : row));
    for (const rows of [twice(odd), twice([{ rear: 9 }, { rear: 3 }])])
      expect(message(rows)).toMatch(/\. Read it with its own bike, or leave it out\.$/);
  });

  it("says so where most recorded cogs are not the bike's, unless the ride shows the bike's", () => {
    const odd = cogs([12, 14, 16, 18, 21]);
    expect(message(odd)).toMatch(/another bike/);
    expect(message(odd, [null, 12, 14, 16, 18, 21, null, null])).toMatch(/another bike/);
    expect(message(odd, bike.cassette)).toBeNull();
  });

  it("is silent about the bike's own gears, a slip of the recorder and no records", () => {
    expect(message(cogs(bike.cassette))).toBeNull();
    expect(message([...cogs(bike.cassette), { timeS: 99, rearTeeth: 12 }])).toBeNull();
    expect(message(cogs([11, 13, 16, 21]))).toBeNull();
    expect(message([])).toBeNull();
  });
});
