import { gunzipSync, gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { FileError } from '../../src/errors/file-error.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { unpackGzip } from '../../src/ride-log/unpack-gzip.ts';

const rows = Array.from({ length: 400 }, (_, s) => `${s},${(5 + (s % 7) / 10).toFixed(2)},${80 + (s % 5)}`);
const csv = new TextEncoder().encode(['time_s,speed_mps,cadence_rpm', ...rows].join('\n'));

const refusal = (bytes: Uint8Array): FileError => {
  try {
    unpackGzip('ride.csv.gz', bytes);
  } catch (error) {
    if (error instanceof FileError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

it('gives what is packed, and other files as they are', () => {
  expect([...unpackGzip('ride.csv.gz', gzipSync(csv))]).toEqual([...csv]);
  expect(unpackGzip('ride.csv', csv)).toBe(csv);
  expect(readRideLog('ride.csv.gz', unpackGzip('ride.csv.gz', gzipSync(csv))).timeS).toHaveLength(400);
});

it('takes files that were packed one behind the other for one, as RFC 1952 (2.2) has it', () => {
  const packed = Buffer.concat([gzipSync(csv.subarray(0, 1000)), gzipSync(csv.subarray(1000))]);
  expect([...unpackGzip('ride.csv.gz', packed)]).toEqual([...csv]);
});

it('gives of a file that was cut off what can be unpacked', () => {
  const packed = gzipSync(csv, { level: 1 });
  const content = unpackGzip('ride.csv.gz', packed.subarray(0, packed.length - 200));
  expect(content.length).toBeGreaterThan(1000);
  expect(content.length).toBeLessThan(csv.length);
  expect([...content]).toEqual([...csv.subarray(0, content.length)]);
});

it('refuses an empty and a damaged one, by name and with what to do', () => {
  const damaged = gzipSync(csv);
  damaged.fill(0xaa, 12, 60);
  for (const bytes of [Uint8Array.of(0x1f, 0x8b, 8, 0), gzipSync(new Uint8Array(0)), damaged])
    expect(refusal(bytes)).toMatchObject({
      code: 'packed',
      message:
        'ride.csv.gz: is packed with gzip, and empty or damaged. Download it again, or unpack it and give the file within.',
    });
});

it('stops where a small file unpacks to more than is read', () => {
  const huge = gzipSync(new Uint8Array(300_000_000));
  expect(huge.length).toBeLessThan(1_000_000);
  expect(gunzipSync(huge.subarray(0), { maxOutputLength: 400_000_000 }).length).toBe(300_000_000);
  expect(refusal(huge).code).toBe('too-large');
});
