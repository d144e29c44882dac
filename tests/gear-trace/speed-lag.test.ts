import { describe, expect, it } from 'vitest';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { measureGears } from '../../src/gear-trace/levels/measure-gears.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { settledSamples } from '../../src/gear-trace/samples/settled-samples.ts';
import { MadeRide, madeBike } from './made-ride.ts';

function speedLagS(ride: MadeRide): number {
  const log = ride.log();
  const samples = pedallingSamples(log);
  const commands = gearCommands(log, madeBike, samples);
  return measureGears(log, samples, settledSamples(log, samples, commands, { cogs: 9, rings: 1 })).speedLagS;
}

describe('lag of the speed behind the cadence', () => {
  it('is none where most changes of speed are soft pedalling, which no lag turns into a gear', () => {
    const ride = new MadeRide();
    for (let n = 0; n < 12; n++) {
      const cog = [3, 4, 5, 4][n % 4];
      ride.shift(cog).pedal(30).pedal(3, { cadenceRpm: 88 }).followSoftly(5, 0.8);
    }
    expect(Math.abs(speedLagS(ride))).toBeLessThanOrEqual(0.5);
  });
});
