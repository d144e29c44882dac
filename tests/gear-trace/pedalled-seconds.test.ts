import { expect, it } from 'vitest';
import { allPedalledSeconds, pedalledSeconds } from '../../src/gear-trace/samples/pedalled-seconds.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { madeLog } from './made-ride.ts';

it('seconds of pedalling count steps over 30 rpm, of sparse records too, and neither gaps nor missing cadence', () => {
  const samples = pedallingSamples(
    madeLog({
      timeS: [0, 1, 2, 3, 60, 61, 69, 79, 89.5],
      cadenceRpm: [80, 80, 30, Number.NaN, 80, 31, 70, 82, 75],
      speedMps: [5, 5, 5, 5, 5, 5, 5, 5, 5],
    }),
  );
  expect(Array.from(samples.dtS, (_, record) => pedalledSeconds(samples, record))).toEqual([
    0, 1, 0, 0, 0, 1, 8, 10, 0,
  ]);
  expect(allPedalledSeconds(samples)).toBe(20);
  expect(allPedalledSeconds({ dtS: new Float64Array(), pedalling: new Uint8Array() })).toBe(0);
});
