import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogMissingWarning } from '../../src/gear-trace/belonging/cog-missing.ts';
import { gearRecords, madeLog } from './made-ride.ts';

const bike: Bike = { name: 'Road', chainrings: [40], cassette: [11, 13, 15, 17, 19, 24, 28], actuation: 'cable' };

/** A ride whose records name each size so many times. */
const naming = (times: Readonly<Record<number, number>>, positions = false) => {
  const rows = Object.entries(times).flatMap(([teeth, n]) =>
    Array.from({ length: n }, (_, i) => ({
      timeS: i,
      rearTeeth: Number(teeth),
      frontTeeth: 40,
      ...(positions && { rear: 1 + Object.keys(times).indexOf(teeth) }),
    })),
  );
  return madeLog({ speedMps: [5, 5], cadenceRpm: [80, 80], gearRecords: gearRecords(rows) });
};
const message = (...of: Parameters<typeof naming>): string | null =>
  cogMissingWarning(naming(...of), bike)?.message ?? null;

describe('cogMissingWarning', () => {
  it('names a cog between two that the bike has side by side and that are named too', () => {
    expect(message({ 17: 9, 19: 8, 21: 8, 24: 9 })).toMatch(
      /^The gear records name a cog of 21 teeth between cogs that they name as well and that the bike "Road" has side by side \(11-13-15-17-19-24-28\): its description lacks it\. Write in every cog\./,
    );
    expect(message({ 17: 9, 18: 7, 19: 8, 21: 8, 24: 9 })).toMatch(/name 2 cogs of 18 and 21 teeth .* lacks them\./);
  });

  it.each([
    ['one beside which the next is never named: it may be that one by another count', { 17: 9, 19: 8, 21: 8, 28: 4 }],
    ['a slip', { 17: 9, 19: 8, 21: 2, 24: 9 }],
    ['one far rarer than those beside it', { 19: 80, 21: 5, 24: 90 }],
    ["the bike's own", { 11: 9, 13: 9, 15: 9, 17: 9, 19: 9, 24: 9, 28: 9 }],
    ['one beyond the ends', { 24: 9, 28: 9, 32: 9 }],
  ])('does not name %s', (_, times) => {
    expect(message(times)).toBeNull();
  });

  it('leaves it to positions where they are recorded', () => {
    expect(message({ 17: 9, 19: 8, 21: 8, 24: 9 }, true)).toBeNull();
  });
});
