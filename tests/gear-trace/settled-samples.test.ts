import { expect, it } from 'vitest';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { settledSamples } from '../../src/gear-trace/samples/settled-samples.ts';
import { MadeRide, madeBike } from './made-ride.ts';

/** The settled records of a ride on one ring, by the cog asked for. */
function settledByCog(ride: MadeRide): number[][] {
  const log = ride.log();
  const samples = pedallingSamples(log);
  const commands = gearCommands(log, madeBike, samples);
  return settledSamples(log, samples, commands, { cogs: madeBike.cassette.length, rings: 1 }).map((indices) => [
    ...indices,
  ]);
}

it('are those from 4.5 s after a gear record to 1 s before the next, by the cog asked for', () => {
  const ride = new MadeRide().pedal(10);
  const first = ride.nowS;
  ride.shift(5).pedal(19);
  const second = ride.nowS;
  const byCog = settledByCog(ride.shift(6).pedal(20));
  expect(byCog[5].length).toBeGreaterThan(8);
  expect(Math.min(...byCog[5])).toBeGreaterThanOrEqual(first + 5);
  expect(Math.max(...byCog[5])).toBeLessThan(second);
  expect(Math.min(...byCog[6])).toBeGreaterThanOrEqual(second + 5);
});

it('leave out soft pedalling, which may not drive the wheel, and a slow cadence', () => {
  const ride = new MadeRide().shift(5).pedal(30);
  const softFrom = ride.nowS;
  ride.pedal(20, { powerW: 12 });
  const hardFrom = ride.nowS;
  const settled = settledByCog(ride.pedal(20))[5];
  expect(settled.filter((i) => i >= softFrom && i < hardFrom)).toEqual([]);
  expect(settled.filter((i) => i < softFrom).length).toBeGreaterThan(20);
  expect(settled.filter((i) => i >= hardFrom).length).toBeGreaterThan(15);
});

it('are taken by cadence alone where power is not known', () => {
  const ride = new MadeRide().shift(5).pedal(40);
  const log = { ...ride.log(), powerW: new Float64Array(ride.nowS).fill(Number.NaN) };
  const samples = pedallingSamples(log);
  const commands = gearCommands(log, madeBike, samples);
  const settled = settledSamples(log, samples, commands, { cogs: madeBike.cassette.length, rings: 1 });
  expect(settled[5].length).toBeGreaterThan(25);
});
