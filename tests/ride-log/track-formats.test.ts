import { describe, expect, test } from 'vitest';
import { greatCircleM } from '../../src/ride-log/path-length.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import checks from '../checks/track-formats.json' with { type: 'json' };
import { soundOutcome } from './sound-outcome.ts';
import { gpx, tcx } from './track-encoder.ts';

type Column = 'speedMps' | 'cadenceRpm' | 'powerW' | 'distanceM';
interface Row {
  readonly inPoint?: string;
  readonly inExtensions?: string;
  readonly column: string;
  readonly value: number | null;
  readonly warning?: string;
}
const read = (text: string): RideLog => readRideLog('track', new TextEncoder().encode(text));
const codes = (text: string): string[] => read(text).warnings.map(({ code }) => code);
const code = (text: string): string => soundOutcome(new TextEncoder().encode(text), 'track');

describe.each([
  ['tcx', tcx, checks.tcx.rows as Row[]],
  ['gpx', gpx, checks.gpx.rows as Row[]],
] as const)('%s as its schema says', (format, encode, rows) => {
  test.each(rows)(
    '$inPoint$inExtensions: $column $value',
    ({ inPoint = '', inExtensions = '', column, value, warning }) => {
      const tag = format === 'tcx' ? 'Extensions' : 'extensions';
      const extensions = inExtensions && `<${tag}>${inExtensions}</${tag}>`;
      const ride = read(encode([{ time: '2026-06-01T08:00:00Z', inside: inPoint + extensions }]));
      expect(ride.format).toBe(format);
      const [found] = ride[column as Column];
      if (value === null) expect(found).toBeNaN();
      else expect(found).toBe(value);
      expect(ride.warnings.map(({ code }) => code)).toEqual(warning ? [warning] : []);
    },
  );

  test('days and hours that no calendar has are bad values', () => {
    for (const time of [
      '2026-02-31T08:00:00Z',
      '2026-06-31T08:00:00Z',
      '2026-06-01T24:30:00Z',
      '2026-06-01T24:00:00.5Z',
    ]) {
      const ride = read(encode([{ time: '2026-06-01T08:00:00Z' }, { time }]));
      expect(ride.timeS.length).toBe(1);
      expect(ride.warnings.map(({ message }) => message).join(' ')).toContain(time);
    }
    const midnight = read(encode([{ time: '2024-02-29T23:59:59Z' }, { time: '2024-02-29T24:00:00Z' }]));
    expect([...midnight.timeS]).toEqual([0, 1]);
  });

  test('fractions of a second and zones', () => {
    const times = [
      '2026-06-01T08:00:00Z',
      '2026-06-01T08:00:01.5Z',
      '2026-06-01T10:00:03+02:00',
      '2026-06-01T08:00:04',
    ];
    const ride = read(encode(times.map((time) => ({ time }))));
    expect(ride.startMs).toBe(Date.UTC(2026, 5, 1, 8));
    expect([...ride.timeS]).toEqual([0, 1.5, 3, 4]);
  });

  test('a time beyond any calendar is a bad value', () => {
    const ride = read(encode(['9999-06-01T08:00:00Z', '2026-06-01T08:00:01Z'].map((time) => ({ time }))));
    expect(ride.startMs).toBe(Date.UTC(2026, 5, 1, 8, 0, 1));
    expect(ride.warnings.find(({ code }) => code === 'bad-values')?.message).toContain('point 1, time');
  });

  test('prefixes are as the writer likes them', () => {
    const text = encode([{ time: '2026-06-01T08:00:00Z' }], 'Biking', '');
    const prefixed = text.replace(/<(\/?)([A-Za-z]+)/g, '<$1x:$2').replace('<x:xml', '<?xml');
    expect(read(prefixed).timeS.length).toBe(1);
  });

  test('UTF-16, a byte-order mark and an older encoding are read', () => {
    const text = encode([{ time: '2026-06-01T08:00:00Z' }]);
    const little = Uint8Array.from(Buffer.from(`\uFEFF${text}`, 'utf16le'));
    const big = Uint8Array.from(Buffer.from(`\uFEFF${text}`, 'utf16le').swap16());
    const bare = Uint8Array.from(Buffer.from(text, 'utf16le'));
    const marked = new TextEncoder().encode(`\uFEFF${text}`);
    const latin = Uint8Array.from(Buffer.from(text.replace('UTF-8', 'ISO-8859-1').replace('x-note', 'é'), 'latin1'));
    for (const bytes of [little, big, bare, marked, latin]) expect(readRideLog('text', bytes).timeS.length).toBe(1);
    const strange = new TextEncoder().encode(text.replace('UTF-8', 'x-made-up'));
    expect(() => readRideLog('text', strange)).toThrow(expect.objectContaining({ code: 'encoding' }));
  });

  test('a file that is cut off keeps its whole points', () => {
    const points = Array.from({ length: 50 }, (_, i) => ({ time: new Date(1e12 + i * 1000).toISOString() }));
    const text = encode(points);
    const ride = read(text.slice(0, text.toLowerCase().lastIndexOf('<time') + 9));
    expect(ride.timeS.length).toBe(49);
    expect(ride.warnings.map(({ code }) => code)).toContain('cut-off');
  });

  test('another sport is refused, free text is not', () => {
    const point = [{ time: '2026-06-01T08:00:00Z' }];
    expect(code(encode(point, 'Running'))).toBe('not-cycling');
    expect(code(encode(point, 'Other'))).toBe('a ride');
    expect(code(encode(point, 'Biking'))).toBe('a ride');
    expect(read(encode(point, 'Biking')).sport).toBe('biking');
  });
});

test('TCX: laps and tracks are joined, an activity of another sport is left out', () => {
  const point = (second: number, metres: number): string =>
    `<Trackpoint><Time>2026-06-01T08:00:${String(second).padStart(2, '0')}Z</Time><DistanceMeters>${metres}</DistanceMeters></Trackpoint>`;
  const lap = (...points: string[]): string =>
    `<Lap><DistanceMeters>9</DistanceMeters><Cadence>77</Cadence><Track>${points.join('')}</Track></Lap>`;
  const ride = read(
    `<TrainingCenterDatabase><Activities>
      <Activity Sport="Running">${lap(point(1, 0), point(2, 3))}</Activity>
      <Activity Sport="Biking">${lap(point(20, 0), point(21, 8))}${lap(point(30, 0), point(31, 9))}</Activity>
    </Activities></TrainingCenterDatabase>`,
  );
  expect([...ride.timeS]).toEqual([0, 1, 10, 11]);
  expect([...ride.distanceM]).toEqual([0, 8, 8, 17]);
  expect([...ride.cadenceRpm].every(Number.isNaN)).toBe(true);
  expect(ride.warnings.map(({ code }) => code)).toEqual(['other-sports-left-out', 'speed-from-distance']);
});

test('plans are no rides', () => {
  expect(
    code(
      '<TrainingCenterDatabase><Courses><Course><Track><Trackpoint><Time>2026-06-01T08:00:00Z</Time></Trackpoint></Track></Course></Courses></TrainingCenterDatabase>',
    ),
  ).toBe('no-records');
  expect(code('<gpx><rte><rtept lat="1" lon="1"/></rte></gpx>')).toBe('no-records');
  expect(code('<gpx><trk><trkseg><trkpt lat="1" lon="1"/></trkseg></trk></gpx>')).toBe('no-time');
  expect(code('<html><body>Sign in</body></html>')).toBe('unknown-format');
  expect(code('<')).toBe('unknown-format');
});

test('GPX without speed: derived from positions, which are then gone', () => {
  const metresPerDegree = checks.greatCircle.rows[0].metres;
  const points = Array.from({ length: 100 }, (_, i) => ({
    time: new Date(1e12 + i * 1000).toISOString(),
    lat: 10 + (i * 7.5) / metresPerDegree,
    lon: 20,
  }));
  const ride = read(gpx(points));
  expect(ride.speedSource).toBe('positions');
  for (const speed of ride.speedMps) expect(speed).toBeCloseTo(7.5, 4);
  expect(JSON.stringify(ride)).not.toMatch(/lat|lon/);
});

test('speed in km/h is found out by the way covered', () => {
  const metresPerDegree = checks.greatCircle.rows[0].metres;
  const points = Array.from({ length: 100 }, (_, i) => ({
    time: new Date(1e12 + i * 1000).toISOString(),
    lat: 10 + (i * 7.5) / metresPerDegree,
    inside: '<extensions><speed>27</speed></extensions>',
  }));
  expect(codes(gpx(points))).toEqual(['speed-unit']);
  expect(read(gpx(points)).speedMps[50]).toBeCloseTo(7.5, 6);
});

test('values that are no numbers are left out, and named', () => {
  const points = [
    { time: '2026-06-01T08:00:00Z', inside: '<Cadence>ninety</Cadence>' },
    { time: 'yesterday', inside: '' },
    { time: '2026-06-01T08:00:02Z', inside: '<Cadence></Cadence>' },
  ];
  const ride = read(tcx(points));
  expect(ride.timeS.length).toBe(2);
  const bad = ride.warnings.find(({ code }) => code === 'bad-values');
  expect(bad?.message).toMatch(/2 values.*point 1, Cadence: 'ninety'.*point 2, time: 'yesterday'/);
});

test.each(checks.greatCircle.rows)('great circle $from to $to', ({ from, to, metres }) => {
  expect(Math.abs(greatCircleM(from[0], from[1], to[0], to[1]) - metres)).toBeLessThan(checks.greatCircle.tolerance);
});

test('GPX: the sport is the type of the track itself, not of a link in it', () => {
  const point = '<trkpt lat="1" lon="1"><time>2026-06-01T08:00:00Z</time></trkpt>';
  const link = '<link href="x"><text>x</text><type>running</type></link>';
  const ride = read(`<gpx><trk><type>Biking</type>${link}<trkseg>${point}</trkseg></trk></gpx>`);
  expect(ride.sport).toBe('biking');
  expect(ride.timeS.length).toBe(1);
  expect(code(`<gpx><trk>${link}<type>running</type><trkseg>${point}</trkseg></trk></gpx>`)).toBe('not-cycling');
});
