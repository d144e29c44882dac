import fc from 'fast-check';
import FitParser from 'fit-file-parser';
import { describe, expect, it } from 'vitest';
import { dropCsvPositions } from '../../server/positions/drop-csv-positions.ts';
import { dropFitPositions } from '../../server/positions/drop-fit-positions.ts';
import { dropPositions } from '../../server/positions/drop-positions.ts';
import { EquatorLine } from '../../server/positions/position-trace.ts';
import { sameRide } from '../../server/positions/same-ride.ts';
import { fitCrc } from '../../src/ride-log/fit/fit-crc.ts';
import { greatCircleM } from '../../src/ride-log/path-length.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { chain, FitEncoder } from '../ride-log/fit-encoder.ts';
import { START } from '../ride-log/fit-ride.ts';

const SEMICIRCLE = 180 / 2 ** 31;
/** A made-up place: 46.5 N 9.8 E, moving. */
const latOf = (i: number): number => Math.round((46.5 + i * 4e-5) / SEMICIRCLE);
const lonOf = (i: number): number => Math.round((9.8 + i * 3e-5) / SEMICIRCLE);

interface FitOptions {
  readonly speed?: boolean;
  readonly bigEndian?: boolean;
  readonly compressed?: boolean;
  readonly developer?: boolean;
  readonly count?: number;
}

/** A ride with positions wherever FIT has room for them: records, session, an unknown message, developer fields, texts. */
function placedFit({
  speed = true,
  bigEndian = false,
  compressed = false,
  developer = false,
  count = 90,
}: FitOptions = {}) {
  const encoder = new FitEncoder({ bigEndian });
  encoder
    .define(5, 0, [
      [0, 'enum'],
      [8, 'string'],
    ])
    .record(5, [4, ascii('Home to hut')]);
  const fields = [
    [0, 'sint32'],
    [1, 'sint32'],
    [4, 'uint8'],
    ...(speed ? ([[6, 'uint16']] as const) : []),
    [253, 'uint32'],
  ] as const;
  encoder.define(
    0,
    20,
    fields,
    developer
      ? [
          [0, 8, 0],
          [1, 1, 0],
        ]
      : [],
  );
  for (let i = 0; i < count; i++) {
    const values = [latOf(i), lonOf(i), 80, ...(speed ? [5000 + (i % 5) * 100] : [])];
    const extra = developer ? [...double(46.5), 7] : [];
    if (compressed && i % 30 !== 0) encoder.compressed(0, (START + i) & 31, values);
    else encoder.record(0, [...values, START + i], extra);
  }
  encoder.define(1, 18, [
    [3, 'sint32'],
    [4, 'sint32'],
    [5, 'enum'],
    [29, 'sint32'],
    [253, 'uint32'],
  ]);
  encoder.record(1, [latOf(0), lonOf(0), 2, latOf(9), START + count]);
  encoder.define(2, 0xff00, [
    [0, 'uint32'],
    [1, 'string'],
    [253, 'uint32'],
  ]);
  encoder.record(2, [latOf(0), ascii('Home'), START + count]);
  return encoder;
}

const ascii = (text: string): number[] => [...Buffer.from(text)];
const double = (value: number): number[] => {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleLE(value);
  return [...bytes];
};

const places = new Set(Array.from({ length: 100 }, (_, i) => [latOf(i), lonOf(i)]).flat());

/** How many four-byte windows of the file, in either byte order, hold a coordinate of the made-up ride. */
function placesIn(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let found = 0;
  for (let at = 0; at + 4 <= bytes.length; at++)
    for (const little of [true, false]) if (places.has(view.getInt32(at, little))) found++;
  return found;
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
const tellsPlace = (bytes: Uint8Array): boolean => /[>"](46\.5|9\.8)|home/i.test(new TextDecoder().decode(bytes));

const gpx = (point: (i: number) => string): Uint8Array =>
  new TextEncoder().encode(
    `<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="urn:gpx" xmlns:e="urn:e">
<metadata><name>Home to hut</name><bounds minlat="46.5" minlon="9.8" maxlat="46.6" maxlon="9.9"/></metadata>
<wpt lat="46.512" lon="9.812"><name>Home</name></wpt><rte><rtept lat="46.513" lon="9.813"/></rte>
<trk><name>From home</name><type>cycling</type><trkseg>${Array.from({ length: 90 }, (_, i) => point(i)).join('\n')}</trkseg></trk></gpx>`,
  );
const at = (i: number): string => new Date(Date.UTC(2026, 5, 1, 8) + i * 1000).toISOString();
const place = (i: number): string => `lat="${46.5 + i * 4e-5}" lon="${9.8 + i * 3e-5}"`;

describe('positions of a GPX file', () => {
  const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

  it('are gone with names and way points; the steps stay where speed must come from them', () => {
    const bytes = gpx(
      (i) => `<trkpt ${place(i)}><ele>900</ele><time>${at(i)}</time><extensions><e:cad>80</e:cad></extensions></trkpt>`,
    );
    const placeless = dropPositions('ride.gpx', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(tellsPlace(placeless.bytes)).toBe(false);
    expect(text(placeless.bytes).includes('<type>cycling</type>')).toBe(true);
    expect(/lat="0" lon="0\.00\d+"/.test(text(placeless.bytes))).toBe(true);
    expect(placeless.log.speedSource).toBe('positions');
  });

  it('leave nothing at all where speed was recorded', () => {
    const bytes = gpx(
      (i) =>
        `<trkpt ${place(i)}><time>${at(i)}</time><extensions><e:speed>5.5</e:speed><e:cad>80</e:cad></extensions></trkpt>`,
    );
    const placeless = dropPositions('ride.gpx', bytes);
    expect(placeless.same).toBe(true);
    expect(/ lon="0\.\d*[1-9]/.test(text(placeless.bytes))).toBe(false);
    expect(tellsPlace(placeless.bytes)).toBe(false);
  });

  it('are gone from a file that is cut off, which stays cut off', () => {
    const bytes = gpx((i) => `<trkpt ${place(i)}><time>${at(i)}</time></trkpt>`).slice(0, 3000);
    const placeless = dropPositions('ride.gpx', bytes);
    expect(tellsPlace(placeless.bytes)).toBe(false);
    expect(placeless.log.timeS).toHaveLength(readRideLog('ride.gpx', bytes).timeS.length);
    expect(placeless.warnings.length).toBeGreaterThan(0);
  });
});

describe('positions of a TCX file', () => {
  it('are gone, with notes and names', () => {
    const points = Array.from(
      { length: 90 },
      (_, i) =>
        `<Trackpoint><Time>${at(i)}</Time><Position><LatitudeDegrees>${46.5 + i * 4e-5}</LatitudeDegrees><LongitudeDegrees>${9.8 + i * 3e-5}</LongitudeDegrees></Position><DistanceMeters>${i * 5}</DistanceMeters><Cadence>80</Cadence></Trackpoint>`,
    );
    const bytes = new TextEncoder().encode(
      `<TrainingCenterDatabase xmlns="urn:t"><Activities><Activity Sport="Biking"><Id>${at(0)}</Id><Notes>home &amp; back</Notes><Lap StartTime="${at(0)}"><Track>${points.join('')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`,
    );
    const placeless = dropPositions('ride.tcx', bytes);
    expect(placeless).toMatchObject({ positions: 'dropped', same: true });
    expect(tellsPlace(placeless.bytes)).toBe(false);
    const text = new TextDecoder().decode(placeless.bytes);
    expect(text.match(/<Trackpoint>/g)).toHaveLength(90);
    expect(text.includes('Position')).toBe(false);
  });
});

describe('positions of a CSV file', () => {
  const csv = (text: string): Uint8Array => new TextEncoder().encode(text);

  it('go with every column that has no meaning here', () => {
    const bytes = csv('time_s,lat,speed_mps,lon,note\n0,46.5,5,9.8,"home, sweet"\n1,46.6,5,9.9,x,46.7\n');
    const { bytes: placeless } = dropCsvPositions('ride.csv', bytes);
    expect(new TextDecoder().decode(placeless)).toBe('time_s,lat,speed_mps,lon,note\n0,,5,,\n1,,5,,\n');
  });

  it('leave a file of known columns as it is, byte for byte', () => {
    const bytes = csv('\uFEFFtime_s;speed_mps\r\n0;5,5\r\n1;5,6\r\n');
    expect(dropCsvPositions('ride.csv', bytes).bytes).toBe(bytes);
  });
});

describe('the line along the equator', () => {
  it('keeps every step and stays on the earth', () => {
    const degrees = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(degrees(90), degrees(180)), { minLength: 2, maxLength: 30 }), (points) => {
        const line = new EquatorLine();
        const stands = points.map(([lat, lon]) => line.next(lat, lon) as number);
        points.slice(1).forEach(([lat, lon], i) => {
          const step = greatCircleM(points[i][0], points[i][1], lat, lon);
          expect(Math.abs(stands[i + 1])).toBeLessThanOrEqual(180.000001);
          expect(greatCircleM(0, stands[i], 0, stands[i + 1])).toBeCloseTo(step, 0);
        });
      }),
      { seed: 12 },
    );
  });
});
