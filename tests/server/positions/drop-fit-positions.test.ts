import fc from 'fast-check';
import FitParser from 'fit-file-parser';
import { describe, expect, it } from 'vitest';
import { dropFitPositions } from '../../../server/positions/drop-fit-positions.ts';
import { dropPositions } from '../../../server/positions/drop-positions.ts';
import { sameRide } from '../../../server/positions/same-ride.ts';
import { fitCrc } from '../../../src/ride-log/fit/fit-crc.ts';
import { readRideLog } from '../../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { chain } from '../../ride-log/fit-encoder.ts';
import { type FitOptions, latOf, lonOf, placedFit } from './placed-fit.ts';

const places = new Set(Array.from({ length: 100 }, (_, i) => [latOf(i), lonOf(i)]).flat());

/** How many four-byte windows of the file, in either byte order, hold a coordinate of the made-up ride. */
function placesIn(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let found = 0;
  for (let at = 0; at + 4 <= bytes.length; at++)
    for (const little of [true, false]) if (places.has(view.getInt32(at, little))) found++;
  return found;
}

/** Null for a file that is no ride. */
function readOrNull(bytes: Uint8Array): RideLog | null {
  try {
    return readRideLog('a.fit', bytes);
  } catch {
    return null;
  }
}

function decoded(bytes: Uint8Array): { records?: { position_lat?: number; position_long?: number }[] } {
  let records: unknown;
  new FitParser({ force: false, mode: 'list' }).parse(Buffer.from(bytes), (error, data) => {
    if (error) throw new Error(String(error));
    records = data;
  });
  return records as ReturnType<typeof decoded>;
}

describe('positions of a FIT file', () => {
  it.each<[string, FitOptions]>([
    ['plain', {}],
    ['big endian', { bigEndian: true }],
    ['with compressed headers', { compressed: true }],
    ['with developer fields', { developer: true }],
  ])('are gone, %s, and the ride reads the same', (_what, options) => {
    const bytes = placedFit(options).segment();
    expect(placesIn(bytes)).toBeGreaterThan(100);
    const placeless = dropPositions('ride.fit', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(placesIn(placeless.bytes)).toBe(0);
    expect(Buffer.from(placeless.bytes).includes('Home')).toBe(false);
    expect(placeless.bytes).toHaveLength(bytes.length);
    expect(fitCrc(placeless.bytes)).toBe(0);
    expect(sameRide(readRideLog('ride.fit', bytes), placeless.log)).toBe(true);
  });

  it('are read as missing by an independent reader that checks the sums', () => {
    const { bytes } = dropPositions('ride.fit', placedFit().segment());
    const { records } = decoded(bytes);
    expect(records).toHaveLength(90);
    expect(records?.filter((record) => record.position_lat !== undefined)).toEqual([]);
  });

  it('leave their distances only, around 0 N 0 E, where speed must come from them', () => {
    const bytes = placedFit({ speed: false }).segment();
    const before = readRideLog('ride.fit', bytes);
    expect(before.speedSource).toBe('positions');
    const placeless = dropPositions('ride.fit', bytes);
    expect(placeless.same).toBe(true);
    expect(placesIn(placeless.bytes)).toBe(0);
    const lats = decoded(placeless.bytes).records?.map((record) => record.position_lat);
    expect(new Set(lats)).toEqual(new Set([0]));
    expect(placeless.log.speedMps[45]).toBeCloseTo(before.speedMps[45], 1);
  });

  it.each(['none', 'presence', 'distances'] as const)('leave a file read into a Buffer as it was: %s', (trace) => {
    const bytes = placedFit().segment();
    const read = Buffer.from(bytes);
    const kept = dropFitPositions(read, trace).bytes;
    expect(read.equals(bytes)).toBe(true);
    expect([fitCrc(kept), Buffer.from(kept).equals(dropFitPositions(bytes, trace).bytes)]).toEqual([0, true]);
  });

  it('leave the speed that only they tell where the file is read into a Buffer', () => {
    const bytes = placedFit({ speed: false }).segment();
    const placeless = dropPositions('ride.fit', Buffer.from(bytes));
    expect([placeless.same, placeless.log.speedSource]).toEqual([true, 'positions']);
    expect(placeless.log.speedMps[45]).toBeCloseTo(readRideLog('ride.fit', bytes).speedMps[45], 1);
    expect(fitCrc(placeless.bytes)).toBe(0);
  });

  it('are gone from every segment and from what cannot be read', () => {
    const segment = placedFit().segment();
    const damaged = placedFit()
      .raw(0x5f, 1, 2, 3, ...new Uint8Array(new Int32Array([latOf(1)]).buffer))
      .segment();
    const stray = new Uint8Array(new Int32Array([latOf(2), lonOf(2)]).buffer);
    for (const bytes of [chain(segment, segment), damaged, chain(segment, stray), segment.slice(0, -300)]) {
      const placeless = dropFitPositions(bytes, 'none').bytes;
      expect(placeless).toHaveLength(bytes.length);
      expect(placesIn(placeless)).toBe(0);
      expect(sameRide(readRideLog('a.fit', bytes), readRideLog('a.fit', placeless))).toBe(true);
    }
  });

  it('are gone behind broken records too, and nothing of the ride with them', () => {
    const whole = placedFit().segment();
    for (const [at, length] of [
      [0.3, 8],
      [0.5, 100],
      [0.7, 9],
    ]) {
      const from = Math.round(at * whole.length);
      const overwritten = whole.slice().fill(0x5f, from, from + length);
      const cut = chain(whole.slice(0, from), whole.slice(from + length));
      for (const bytes of [overwritten, cut]) {
        const before = readRideLog('a.fit', bytes);
        expect(before.timeS.length).toBeGreaterThan(60);
        const placeless = dropPositions('a.fit', bytes);
        expect(placeless).toMatchObject({ positions: 'dropped', same: true });
        expect(placeless.log.timeS.length).toBe(before.timeS.length);
        expect(placesIn(placeless.bytes)).toBe(0);
      }
    }
  });

  it('leave a ride that reads the same whatever its damage', () => {
    const bytes = placedFit({ count: 60 }).segment();
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 12 }),
        (flips) => {
          const broken = bytes.slice();
          for (const [at, value] of flips) broken[at] = value;
          const before = readOrNull(broken);
          if (before) expect(sameRide(before, readRideLog('a.fit', dropPositions('a.fit', broken).bytes))).toBe(true);
        },
      ),
      { numRuns: 300, seed: 12 },
    );
  });

  it('keep a wrong check sum wrong', () => {
    const bytes = placedFit().segment({ crc: 0x1234 });
    const { bytes: placeless } = dropFitPositions(bytes, 'none');
    expect(fitCrc(placeless)).not.toBe(0);
    expect(readRideLog('a.fit', placeless).warnings.map(({ code }) => code)).toContain('crc-wrong');
  });

  it('go a second time without a change', () => {
    const once = dropPositions('ride.fit', placedFit({ speed: false }).segment()).bytes;
    expect(Buffer.from(dropPositions('ride.fit', once).bytes).equals(Buffer.from(once))).toBe(true);
  });

  it('survive any damage without an error, a hang or a longer file', () => {
    const bytes = placedFit({ count: 20 }).segment();
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { maxLength: 20 }),
        fc.nat(bytes.length),
        (flips, length) => {
          const broken = bytes.slice(0, length);
          for (const [at, value] of flips) if (at < length) broken[at] = value;
          for (const trace of ['none', 'presence', 'distances'] as const)
            expect(dropFitPositions(broken, trace).bytes).toHaveLength(length);
        },
      ),
      { numRuns: 300, seed: 11 },
    );
  });
});

/** True where a text file still holds a coordinate near the made-up place, or a name. */
