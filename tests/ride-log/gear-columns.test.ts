import { describe, expect, it } from 'vitest';
import { COG_TEETH } from '../../src/drivetrain/tooth-limits.ts';
import { gearColumns } from '../../src/ride-log/gear-columns.ts';

const MINUTE_MS = 60_000;
/** Gear records a minute apart that name these cogs on a ring of 32. */
const named = (...rear: number[]) =>
  gearColumns(
    rear.map((rearTeeth, i) => ({
      ...{ timeMs: i * MINUTE_MS, rearTeeth, frontTeeth: 32 },
      ...{ rearPosition: 0, frontPosition: 0 },
    })),
    0,
    rear.length * MINUTE_MS,
  );

describe('rear tooth counts that may be positions', () => {
  const least = COG_TEETH.least;

  it('are positions where several are too few for a cog and none is beyond the most cogs there are', () => {
    const { positions, impossible, gearRecords } = named(1, 2, 3, 12);
    expect([positions.rear, impossible]).toEqual([[1, 2, 3, 12], 0]);
    expect(gearRecords.timeS.length).toBe(0);
  });

  it('are teeth where only one is too few, which is then set aside', () => {
    const { positions, impossible, gearRecords } = named(least - 1, least, least + 2);
    expect([positions.rear, impossible]).toEqual([[], 1]);
    expect([...gearRecords.rearTeeth]).toEqual([0, least, least + 2]);
  });

  it('are teeth where one is more than there are cogs', () => {
    const { positions, impossible } = named(1, 2, 14);
    expect([positions.rear, impossible]).toEqual([[], 2]);
  });
});
