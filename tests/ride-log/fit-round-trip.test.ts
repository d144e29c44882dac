import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { chain } from './fit-encoder.ts';
import { fitRide, type RawGear, type RawRecord, START } from './fit-ride.ts';

const maybe = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(arbitrary, { nil: undefined });

const steps = fc.array(
  fc.record({
    stepS: fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 40 }), fc.integer({ min: 41, max: 4000 })),
    speed: maybe(fc.integer({ min: 1, max: 40_000 })),
    cadence: maybe(fc.integer({ min: 0, max: 229 })),
    fractional: maybe(fc.integer({ min: 0, max: 127 })),
    power: maybe(fc.integer({ min: 0, max: 3000 })),
    wayM: fc.integer({ min: 0, max: 40 }),
  }),
  { minLength: 1, maxLength: 60 },
);

const ride = steps.map((list) => {
  let time = START;
  let distance = 0;
  return list.map(({ stepS, wayM, ...values }, i): RawRecord => {
    if (i > 0) time += stepS;
    distance += wayM * 100;
    return { ...values, speed: i === 0 ? 5000 : values.speed, time, distance };
  });
});

const gears = fc.array(
  fc.record({
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    rear: fc.integer({ min: 7, max: 60 }),
    rearPosition: fc.integer({ min: 1, max: 13 }),
    front: fc.constantFrom(0, 255, 32, 50),
    frontPosition: fc.constantFrom(0, 255, 1, 2),
    isFront: fc.boolean(),
  }),
  { maxLength: 12 },
);

const known = (byte: number): number => (byte === 255 ? 0 : byte);
const nan = (value: number | undefined, scale: number): number => (value === undefined ? Number.NaN : value / scale);

test('what is encoded is decoded: both byte orders, plain and compressed time stamps, plain and enhanced speed, gears anywhere', () => {
  const options = fc.record({
    bigEndian: fc.boolean(),
    enhanced: fc.boolean(),
    compressed: fc.boolean(),
    gearsLast: fc.boolean(),
    headerSize: fc.constantFrom<12 | 14>(12, 14),
  });
  fc.assert(
    fc.property(ride, gears, options, (records, changes, how) => {
      const span = records.at(-1)!.time - START;
      const words = changes
        .map(({ share, isFront, ...gear }) => ({ ...gear, isFront, time: START + Math.round(share * span) }))
        .sort((a, b) => a.time - b.time);
      // Records of one second keep the file's order, which is turned round where gears are written last: none share one here.
      const distinct = words.filter(({ time }, i) => i === 0 || time > words[i - 1].time);
      const raw = distinct.map(
        ({ time, rear, rearPosition, front, frontPosition, isFront }): RawGear => ({
          time,
          front: isFront,
          word: rearPosition + rear * 2 ** 8 + frontPosition * 2 ** 16 + front * 2 ** 24,
        }),
      );
      const log = readRideLog('ride', fitRide(records, raw, how));
      expect(log.warnings).toEqual([]);
      expect(log.sport).toBe('cycling');
      expect(log.startMs).toBe((START + 631_065_600) * 1000);
      expect([...log.timeS]).toEqual(records.map(({ time }) => time - START));
      expect([...log.speedMps]).toEqual(records.map(({ speed }) => nan(speed, 1000)));
      expect([...log.powerW]).toEqual(records.map(({ power }) => nan(power, 1)));
      expect([...log.distanceM]).toEqual(records.map(({ distance }) => nan(distance, 100)));
      expect([...log.cadenceRpm]).toEqual(
        records.map(({ cadence, fractional }) => nan(cadence, 1) + (fractional ?? 0) / 128),
      );
      expect([...log.gearRecords.timeS]).toEqual(distinct.map(({ time }) => time - START));
      expect([...log.gearRecords.rearTeeth]).toEqual(distinct.map(({ rear }) => rear));
      expect([...log.gearRecords.rearPosition]).toEqual(distinct.map(({ rearPosition }) => rearPosition));
      expect([...log.gearRecords.frontTeeth]).toEqual(distinct.map(({ front }) => known(front)));
      expect([...log.gearRecords.frontPosition]).toEqual(distinct.map(({ frontPosition }) => known(frontPosition)));
      expect(log.gearRecords.wholeSeconds).toBe(true);
    }),
    { numRuns: 300, seed: 20_260_601 },
  );
});

test('segments are joined in order of time, whatever their order in the file', () => {
  fc.assert(
    fc.property(ride, ride, fc.boolean(), (first, second, swapped) => {
      const shift = first.at(-1)!.time - START + 100;
      const later = second.map((record) => ({ ...record, time: record.time + shift }));
      const parts = [fitRide(first), fitRide(later, [], { bigEndian: true })];
      const log = readRideLog('chained', chain(...(swapped ? parts.reverse() : parts)));
      expect(log.warnings).toEqual([]);
      expect([...log.timeS]).toEqual([...first, ...later].map(({ time }) => time - START));
      expect([...log.speedMps]).toEqual([...first, ...later].map(({ speed }) => nan(speed, 1000)));
      const way = [...log.distanceM];
      expect(way.every((metres, i) => i === 0 || metres >= way[i - 1])).toBe(true);
    }),
    { numRuns: 100, seed: 20_260_602 },
  );
});
