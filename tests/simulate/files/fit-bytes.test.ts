import FitParser from 'fit-file-parser';
import { describe, expect, it } from 'vitest';
import { gearWord } from '../../../src/simulate/files/fit-bytes.ts';
import { simulateRides } from '../../../src/simulate/simulate-rides.ts';

const [ride] = simulateRides({ cause: 'cable-tension-low', seed: 4, durationS: 1800, terrain: 'rolling' });

// biome-ignore lint/suspicious/noExplicitAny: the parser's own types leave records open
async function decode(bytes: Uint8Array): Promise<any> {
  const parser = new FitParser({ force: false, speedUnit: 'm/s', lengthUnit: 'm' });
  return parser.parseAsync(Buffer.from(bytes));
}

describe('FIT bytes of a simulated ride', () => {
  it('decode, CRCs checked, to the columns of the log', async () => {
    const decoded = await decode(ride.bytes.fit as Uint8Array);
    const { log } = ride;
    expect(decoded.records).toHaveLength(log.timeS.length);
    decoded.records.forEach((record: Record<string, number & Date>, i: number) => {
      expect((record.timestamp.getTime() - log.startMs) / 1000).toBe(log.timeS[i]);
      if (Number.isNaN(log.cadenceRpm[i])) expect(record.cadence).toBeUndefined();
      else expect(record.cadence).toBe(log.cadenceRpm[i]);
      if (Number.isNaN(log.speedMps[i])) expect(record.speed).toBeUndefined();
      else expect(record.speed).toBeCloseTo(log.speedMps[i], 3);
      if (Number.isNaN(log.powerW[i])) expect(record.power).toBeUndefined();
      else expect(record.power).toBe(log.powerW[i]);
    });
    expect(decoded.sessions[0].sport).toBe('cycling');
  });

  it('carry every gear record as a rear event whose word unpacks to its four bytes', async () => {
    const decoded = await decode(ride.bytes.fit as Uint8Array);
    const rear = decoded.events.filter((event: { event: string }) => event.event === 'rear_gear_change');
    const { gearRecords } = ride.log;
    expect(rear).toHaveLength(gearRecords.timeS.length);
    rear.forEach((event: { timestamp: Date; data: number }, i: number) => {
      expect((event.timestamp.getTime() - ride.log.startMs) / 1000).toBe(gearRecords.timeS[i]);
      expect(event.data & 0xff).toBe(gearRecords.rearPosition[i]);
      expect((event.data >>> 8) & 0xff).toBe(gearRecords.rearTeeth[i]);
      expect((event.data >>> 16) & 0xff).toBe(gearRecords.frontPosition[i]);
      expect(event.data >>> 24).toBe(gearRecords.frontTeeth[i]);
    });
  });

  it('pack the words seen in published files', () => {
    // muktihari/fit decoder tests: 0x27010E08 = rear 8, 14 teeth, front 1, 39 teeth.
    expect(gearWord(8, 14, 1, 39)).toBe(0x27010e08);
    // Sample of a decoding kit's README: 0x00FF1805 = rear 5, 24 teeth, ring unknown.
    expect(gearWord(5, 24, 0, 0)).toBe(0x00ff1805);
  });
});
