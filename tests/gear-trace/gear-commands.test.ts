import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { gearCommands as readCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { settledSamples } from '../../src/gear-trace/samples/settled-samples.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { gearRecords, MadeRide, madeBike, madeDoubleBike, madeLog } from './made-ride.ts';

const second = (count: number) => ({ speedMps: Array(count).fill(5), cadenceRpm: Array(count).fill(80) });

const gearCommands = (log: RideLog, bike: Bike) => readCommands(log, bike, pedallingSamples(log));

describe('gearCommands', () => {
  it('counts positions from the largest cog and from the smallest ring', () => {
    const records = gearRecords([
      { timeS: 0, rear: 1, front: 1 },
      { timeS: 3, rear: 9, front: 2 },
    ]);
    const commands = gearCommands(madeLog({ ...second(6), gearRecords: records }), madeDoubleBike);
    expect([...commands.cog]).toEqual([8, 0]);
    expect([...commands.ring]).toEqual([0, 1]);
    expect([...commands.latest]).toEqual([0, 0, 0, 1, 1, 1]);
  });

  it('counts positions from the smallest cog where the teeth beside them say so', () => {
    const shown = [...madeBike.cassette.entries()].slice(1, 6);
    const records = gearRecords(shown.map(([cog, rearTeeth], timeS) => ({ timeS, rear: cog + 1, rearTeeth })));
    const commands = gearCommands(madeLog({ ...second(6), gearRecords: records }), madeBike);
    expect([...commands.cog]).toEqual(shown.map(([cog]) => cog));
  });

  it('knows no cog from where a record names teeth that cannot be', () => {
    const records = gearRecords([0, 1, 2].map((timeS) => ({ timeS, rearTeeth: timeS === 1 ? 0 : 23 })));
    const commands = (rearLost?: Uint8Array) => [
      ...gearCommands(madeLog({ ...second(3), gearRecords: { ...records, rearLost } }), madeBike).cog,
    ];
    expect(commands()).toEqual([5, 5, 5]);
    expect(commands(Uint8Array.of(0, 1, 0))).toEqual([5, -1, 5]);
  });

  it('lets the position outweigh wrong teeth', () => {
    const records = gearRecords([{ timeS: 0, rear: 4, rearTeeth: 11 }]);
    expect([...gearCommands(madeLog({ ...second(2), gearRecords: records }), madeBike).cog]).toEqual([5]);
  });

  it('reads teeth where there is no position: exactly, else the nearest', () => {
    const records = gearRecords([
      { timeS: 0, rearTeeth: 23 },
      { timeS: 1, rearTeeth: 33 },
    ]);
    expect([...gearCommands(madeLog({ ...second(3), gearRecords: records }), madeBike).cog]).toEqual([5, 8]);
  });

  it('reads teeth by rank where as many were recorded as the bike has, also where some are the bike’s by chance', () => {
    for (const teeth of [
      [10, 12, 14, 16, 18, 21, 24, 28, 32],
      [11, 15, 17, 18, 20, 26, 28, 30, 36],
    ]) {
      const records = gearRecords(teeth.map((rearTeeth, timeS) => ({ timeS, rearTeeth })));
      const commands = gearCommands(madeLog({ ...second(9), gearRecords: records }), madeBike);
      expect([...commands.cog]).toEqual([...teeth.keys()]);
    }
  });

  it('reads them by order and by the ratio pedalled where not all cogs were used', () => {
    // cogs 1 to 5 of 11 13 15 17 20 23 26 30 34, recorded as if they were those two further
    const ride = new MadeRide().pedal(30).wander(30, 12, [1, 5]);
    const log = ride.log();
    const asWritten = log.gearRecords.rearTeeth;
    const recorded = new Map([
      [13, 17],
      [15, 19],
      [17, 23],
      [20, 25],
      [23, 30],
    ]);
    const wrong = {
      ...log.gearRecords,
      rearTeeth: asWritten.map((teeth) => recorded.get(teeth) ?? 0),
      rearPosition: asWritten.map(() => 0),
    };
    const read = gearCommands({ ...log, gearRecords: wrong }, ride.bike).cog;
    expect([...read]).toEqual([...asWritten].map((teeth) => madeBike.cassette.indexOf(teeth)));
  });

  it('keeps the last known cog and ring where a record does not name them', () => {
    const records = gearRecords([
      { timeS: 0, rear: 3, front: 2 },
      { timeS: 1, front: 1 },
      { timeS: 2, rear: 4 },
    ]);
    const commands = gearCommands(madeLog({ ...second(4), gearRecords: records }), madeDoubleBike);
    expect([...commands.cog]).toEqual([6, 6, 5]);
    expect([...commands.ring]).toEqual([1, 0, 0]);
  });

  it('knows the ring of a bike with one without any record, and none of two', () => {
    const log = madeLog({ ...second(2), gearRecords: gearRecords([{ timeS: 1, rear: 2 }]) });
    expect([...gearCommands(log, madeBike).ring]).toEqual([0]);
    expect([...gearCommands(log, madeDoubleBike).ring]).toEqual([-1]);
    expect([...gearCommands(log, madeBike).latest]).toEqual([-1, 0]);
  });
});

describe('settledSamples', () => {
  const records = gearRecords([
    { timeS: 0, rear: 5 },
    { timeS: 20, rear: 4 },
  ]);
  const settle = (powerW: number[]) => {
    const log = madeLog({ ...second(40), powerW, gearRecords: records });
    return settledSamples(log, pedallingSamples(log), gearCommands(log, madeBike), { cogs: 9, rings: 1 });
  };

  it('takes records well after a command and not just before the next, by commanded gear', () => {
    const byGear = settle(Array(40).fill(150));
    // the record a second before the next may show the new cog already
    expect([...byGear[4]]).toEqual(Array.from({ length: 14 }, (_, i) => i + 5));
    expect([...byGear[5]]).toEqual(Array.from({ length: 15 }, (_, i) => i + 25));
    expect(byGear.filter((indices) => indices.length > 0).length).toBe(2);
  });

  it('leaves out records without power where power is measured', () => {
    expect(settle(Array(40).fill(0)).every((indices) => indices.length === 0)).toBe(true);
  });

  it('leaves out gears whose ring is not known', () => {
    const log = madeLog({ ...second(40), gearRecords: records });
    const byGear = settledSamples(log, pedallingSamples(log), gearCommands(log, madeDoubleBike), { cogs: 9, rings: 2 });
    expect(byGear.length).toBe(18);
    expect(byGear.every((indices) => indices.length === 0)).toBe(true);
  });
});
