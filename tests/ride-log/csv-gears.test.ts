import { describe, expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

const HEAD = 'time_s,speed_mps,rear_teeth';
const read = (lines: readonly string[], head = HEAD): RideLog =>
  readRideLog('ride.csv', new TextEncoder().encode(`${[head, ...lines].join('\n')}\n`));

/** Gear records as [s since the start, teeth]; -1 where the gear is lost. */
const gears = ({ gearRecords: { timeS, rearTeeth, rearLost } }: RideLog): number[][] =>
  Array.from(timeS, (time, i) => [time, rearLost?.[i] ? -1 : rearTeeth[i]]);
const codes = ({ warnings }: RideLog): string[] => warnings.map(({ code }) => code);

/** A ride of a hundred seconds: the 21 from the start, the 24 from 30 s, the 28 from 31 s, the 21 again from 70 s. */
const teethAt = (second: number): number => (second < 30 || second >= 70 ? 21 : second < 31 ? 24 : 28);
const dense = Array.from({ length: 100 }, (_, second) => `${second},5,${teethAt(second)}`);
const sparse = dense.map((line, second) =>
  second > 0 && teethAt(second) === teethAt(second - 1) ? line.replace(/\d+$/, '') : line,
);
const byTime = (a: string, b: string): number => Number.parseInt(a, 10) - Number.parseInt(b, 10);
const asRidden = [
  [0, 21],
  [30, 24],
  [31, 28],
  [70, 21],
];

describe('changes of gear are found in order of time', () => {
  test.each([
    ['as ridden', dense],
    ['newest row first', dense.toReversed()],
    ['in two halves, the second first', [...dense.slice(50), ...dense.slice(0, 50)]],
    ['as ridden, only changes written', sparse],
    ['newest row first, only changes written', sparse.toReversed()],
  ])('rows %s', (_, lines) => {
    expect(gears(read(lines))).toEqual(asRidden);
  });

  test('it is said that rows were sorted, and how empty gear cells were read', () => {
    expect(codes(read(dense))).toEqual([]);
    expect(read(dense.toReversed()).warnings).toEqual([
      { code: 'records-sorted', message: 'The records were not in order of time: sorted.' },
    ]);
    expect(read(sparse.toReversed()).warnings).toContainEqual({
      code: 'gear-order',
      message: 'Empty gear cells were read as no change from the row before in time, not from the row above.',
    });
  });

  test('rows of their own that name a gear again, two in one second too, are no records joined with others', () => {
    const rows = ['30,,24', '30,,24', '60,,24', '70,,21', '70,,19'];
    const log = read([...dense.map((line) => line.replace(/\d+$/, '')), ...rows].toSorted(byTime));
    expect(codes(log)).toEqual([]);
    expect(log.timeS.length).toBe(100);
    expect(gears(log)).toEqual([
      [30, 24],
      [70, 21],
      [70, 19],
    ]);
    expect(codes(read([...dense, '50,6,28'].toSorted(byTime)))).toEqual(['repeated-time']);
  });

  test('a single row with a wrong time makes no shift there and back', () => {
    const lines = dense.with(80, '45,5,21');
    expect(gears(read(lines))).toEqual(asRidden);
  });
});

describe('a gear in a row that is spoilt', () => {
  test.each([
    ['without a time', ',5,24'],
    ['with a time that cannot be read', 'noon,5,24'],
    ['with a time that runs backwards', '1.5,5,24'],
  ])('%s counts from the next row on', (_, spoilt) => {
    const ride = read(['0,5,21', '1,5,', '2,5,', '3,5,', '4,5,', spoilt, '6,5,', '7,5,', '8,5,28']);
    expect(gears(ride)).toEqual([
      [0, 21],
      [6, 24],
      [8, 28],
    ]);
  });

  test('without a time, in a file written newest row first, counts from the row above it on', () => {
    const lines = sparse.toReversed();
    const ride = read(lines.with(lines.indexOf('31,5,28'), ',5,28'));
    expect(gears(ride)).toEqual([
      [0, 21],
      [30, 24],
      [32, 28],
      [70, 21],
    ]);
  });

  test('a row of too many cells or of teeth that cannot be read leaves the gear unknown until a row names it', () => {
    for (const spoilt of ['5,5,24,9', '5,5,twenty', '5,5,300']) {
      const ride = read(['0,5,21', '1,5,', '2,5,', spoilt, '6,5,', '7,5,', '8,5,28']);
      expect(gears(ride)).toEqual([
        [0, 21],
        [6, -1],
        [8, 28],
      ]);
      expect(ride.warnings).toContainEqual({
        code: 'gear-lost',
        message: 'After 1 row that cannot be read the gear asked for is not known until a row names it.',
      });
    }
  });

  test('costs nothing where every row names its gear, or none is ever named', () => {
    expect(gears(read(dense.with(20, '20,5,21,9')))).toEqual(asRidden);
    expect(codes(read(dense.with(20, '20,5,21,9')))).toEqual(['long-rows']);
    expect(codes(read(['0,5', '1,5,6', '2,5'], 'time_s,speed_mps'))).toEqual(['long-rows']);
  });
});

describe('teeth that cannot be', () => {
  test('leave the gear unknown until a row names it', () => {
    const ride = read(['0,5,21', '1,5,2', '2,5,', '3,5,24']);
    expect(gears(ride)).toEqual([
      [0, 21],
      [1, -1],
      [3, 24],
    ]);
    expect(codes(ride)).toEqual(['impossible-teeth']);
  });

  test('positions in place of teeth are left out, and it is said', () => {
    const ride = read(
      Array.from({ length: 24 }, (_, i) => `${i},5,32,${1 + (i % 12)}`),
      'time_s,speed_mps,front_teeth,rear_teeth',
    );
    expect(ride.gearRecords.timeS.length).toBe(0);
    expect(ride.warnings).toEqual([
      {
        code: 'positions-for-teeth',
        message:
          'The gear records name 1 to 12 as rear teeth: these look like positions of the cogs, not teeth, and were left out. Write the teeth of each.',
      },
    ]);
  });

  test('positions of two rings are left out, and the cogs kept', () => {
    const ride = read(['0,5,1,21', '1,5,2,21', '2,5,1,24'], 'time_s,speed_mps,front_teeth,rear_teeth');
    expect([...ride.gearRecords.rearTeeth]).toEqual([21, 21, 24]);
    expect([...ride.gearRecords.frontTeeth]).toEqual([0, 0, 0]);
    expect(codes(ride)).toEqual(['positions-for-teeth']);
  });
});

describe('a file of gears alone', () => {
  const gearsAlone = (teeth: readonly number[]): RideLog =>
    read(
      teeth.map((cog, i) => `${300 * i},${cog}`),
      'time_s,rear_teeth',
    );

  test.each([
    ['of changes', [21, 24, 21, 28, 24, 21]],
    ['in which one row repeats the gear', [21, 24, 24, 28, 24, 21]],
    ['in which most rows do', [21, 21, 21, 24, 24, 24]],
  ])('%s is as long as its rows', (_, teeth) => {
    const ride = gearsAlone(teeth);
    expect([...ride.timeS]).toEqual([0, 300, 600, 900, 1200, 1500]);
    expect(gears(ride)).toEqual(teeth.map((cog, i) => [300 * i, cog]).filter(([, cog], i) => cog !== teeth[i - 1]));
    expect(codes(ride)).toEqual([]);
  });
});
