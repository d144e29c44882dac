import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { MadeRide, madeBike } from './made-ride.ts';

describe('tooth counts recorded without positions', () => {
  /** A ride on all cogs but the largest, whose recorder was told other large cogs than there are. */
  const ride = new MadeRide();
  for (const cog of [4, 5, 6, 7, 6, 5, 4, 3, 2, 1, 0, 1, 2, 3])
    (cog === ride.cog ? ride : ride.shift(cog)).pedal(25).pedal(12, { cadenceRpm: 95 }).pedal(25, { cadenceRpm: 70 });
  const log = ride.log();
  const told: Readonly<Record<number, number>> = { 23: 25, 26: 29, 30: 33 };
  const { gearRecords } = log;
  const mistold = {
    ...log,
    gearRecords: {
      ...gearRecords,
      rearPosition: gearRecords.rearPosition.map(() => 0),
      rearTeeth: gearRecords.rearTeeth.map((teeth) => told[teeth] ?? teeth),
    },
  };
  const { rolloutMm: _written, ...withoutRollout } = madeBike;

  it.each<[string, Bike]>([
    ['with a rollout in the bike file', madeBike],
    ['without one', withoutRollout],
  ])('are read by the development that was pedalled with them, %s', (_, bike) => {
    const { commands } = traceGears(mistold, bike);
    const asked = [...new Set(commands.cog)].filter((cog) => cog >= 0).sort((a, b) => a - b);
    expect(asked).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });
});
