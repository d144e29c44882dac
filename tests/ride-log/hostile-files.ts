import { chain, FitEncoder, type FitFieldSpec } from './fit-encoder.ts';
import { fitRide, plainRecords, START } from './fit-ride.ts';

type Bytes = Uint8Array<ArrayBuffer>;

/** A file made to cost time or memory, of about `size` bytes, and what must become of it. */
interface HostileFile {
  readonly name: string;
  readonly outcome: string;
  make(size: number): Bytes;
}

const text = (content: string): Bytes => new TextEncoder().encode(content);
const fill = (size: number, unit: string): string => unit.repeat(Math.ceil(size / unit.length));

/** A whole FIT frame round `unit`, over and over, behind `head`: quicker than record by record. */
function flood(size: number, head: FitEncoder, unit: readonly number[]): Bytes {
  const body = head.segment({ noCrc: true }).subarray(14);
  const repeated = new Uint8Array(Math.max(1, Math.ceil((size - body.length) / unit.length)) * unit.length);
  for (let i = 0; i < repeated.length; i++) repeated[i] = unit[i % unit.length];
  const header = new FitEncoder().segment({ dataSize: body.length + repeated.length, noCrc: true });
  const file = new Uint8Array(header.length + body.length + repeated.length + 2);
  file.set(header);
  file.set(body, header.length);
  file.set(repeated, header.length + body.length);
  return file;
}

const TIME: FitFieldSpec = [253, 'uint32'];
const withClock = (): FitEncoder => new FitEncoder().define(15, 20, [TIME, [4, 'uint8']]).record(15, [START, 90]);

export const HOSTILE_FILES: readonly HostileFile[] = [
  {
    name: 'FIT: records without fields',
    outcome: 'a ride',
    make: (size) => flood(size, withClock().define(0, 20, []), [0]),
  },
  {
    name: 'FIT: two-byte records, each with a compressed time stamp one second on',
    outcome: 'a ride',
    make: (size) => {
      const seconds = Array.from({ length: 32 }, (_, i) => [0x80 | ((START + 1 + i) & 31), 90]);
      return flood(Math.min(size, 990_000), withClock().define(0, 20, [[4, 'uint8']]), seconds.flat());
    },
  },
  {
    name: 'FIT: two-byte records of one and the same second',
    outcome: 'a ride',
    make: (size) =>
      flood(Math.min(size, 990_000), withClock().define(0, 20, [[4, 'uint8']]), [0x80 | (START & 31), 90]),
  },
  {
    name: 'FIT: gear records without end',
    outcome: 'a ride',
    make: (size) =>
      flood(
        Math.min(size, 590_000),
        withClock().define(0, 21, [
          [0, 'enum'],
          [3, 'uint32'],
        ]),
        [0x80 | (START & 31), 43, 3, 14, 1, 39],
      ),
  },
  {
    name: 'FIT: more records than any ride has',
    outcome: 'too-many-records',
    make: (size) => flood(Math.max(size, 1_200_000), withClock().define(0, 20, [[4, 'uint8']]), [0x80, 90]),
  },
  {
    name: 'FIT: records whose times leap to and fro',
    outcome: 'a ride',
    make: (size) => {
      const time = (year: number): number[] => [0, 0, 0, 0x20 + year];
      const head = withClock().define(0, 20, [TIME, [4, 'uint8']]);
      return flood(Math.min(size, 2_900_000), head, [0, ...time(0), 90, 0, ...time(9), 90, 0, ...time(3), 90]);
    },
  },
  {
    name: 'FIT: broken records without end',
    outcome: 'a ride',
    make: (size) => {
      const head = withClock().define(0, 20, [TIME, [4, 'uint8']]);
      const record = [0, 1, 2, 3, 0x20, 90];
      return flood(Math.min(size, 2_900_000), head, [...Array(4).fill(record).flat(), ...Array(400).fill(0x3f)]);
    },
  },
  {
    name: 'FIT: definitions without end',
    outcome: 'a ride',
    make: (size) => flood(size, withClock(), [0x40, 0, 0, 20, 0, 2, 253, 4, 0x86, 4, 1, 2]),
  },
  {
    name: 'FIT: a definition of 255 fields before each record',
    outcome: 'a ride',
    make: (size) => {
      const fields = Array.from({ length: 255 }, () => [4, 1, 2]).flat();
      return flood(size, withClock(), [0x40, 0, 0, 20, 0, 255, ...fields, 0, ...Array(255).fill(90)]);
    },
  },
  {
    name: 'FIT: sessions and devices without end',
    outcome: 'a ride',
    make: (size) =>
      flood(
        size,
        withClock()
          .define(0, 18, [[5, 'enum']])
          .define(1, 23, [[1, 'uint8']]),
        [0, 2, 1, 123],
      ),
  },
  {
    name: 'FIT: headers within headers, each claiming all that follows',
    outcome: 'no-records',
    make: (size) => {
      const count = Math.ceil(size / 12);
      const file = new Uint8Array(count * 12);
      const view = new DataView(file.buffer);
      for (let i = 0; i < count; i++) {
        file.set([12, 0x20, 0, 0, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54], i * 12);
        view.setUint32(i * 12 + 4, Math.max(0, file.length - i * 12 - 14), true);
      }
      return file;
    },
  },
  {
    name: 'FIT: a small ride whose header claims four gigabytes',
    outcome: 'a ride',
    make: () => fitRide(plainRecords(50), [], { dataSize: 0xffffffff }),
  },
  {
    name: 'FIT: many small segments',
    outcome: 'a ride',
    make: (size) => {
      const one = fitRide(plainRecords(3));
      return chain(...Array.from({ length: Math.min(2000, Math.ceil(size / one.length)) }, () => one));
    },
  },
  {
    name: 'XML: entities that multiply',
    outcome: 'no-records',
    make: () => {
      const entities = Array.from({ length: 30 }, (_, i) => `<!ENTITY e${i + 1} "&e${i};&e${i};&e${i};&e${i};">`);
      return text(
        `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY e0 "boom">${entities.join('')}]><gpx><name>&e30;</name></gpx>`,
      );
    },
  },
  {
    name: 'XML: an entity that names a file',
    outcome: 'no-records',
    make: () => text('<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]><gpx><trk><name>&x;</name></trk></gpx>'),
  },
  { name: 'XML: nested 300,000 deep', outcome: 'bad-xml', make: () => text(`<gpx>${'<a>'.repeat(300_000)}`) },
  {
    name: 'XML: attributes without end',
    outcome: 'bad-xml',
    make: (size) => text(`<gpx ${Array.from({ length: size / 8 }, (_, i) => `a${i}=""`).join(' ')}>`),
  },
  { name: 'XML: one endless name', outcome: 'unknown-format', make: (size) => text(`<${fill(size, 'gpx')}>`) },
  { name: 'XML: one endless attribute', outcome: 'no-records', make: (size) => text(`<gpx a="${fill(size, 'a')}"/>`) },
  { name: 'XML: one endless comment', outcome: 'unknown-format', make: (size) => text(`<!--${fill(size, 'gpx ')}`) },
  { name: 'XML: one endless entity', outcome: 'no-records', make: (size) => text(`<gpx>&${fill(size, 'a')}</gpx>`) },
  { name: 'XML: one endless text', outcome: 'no-records', make: (size) => text(`<gpx>${fill(size, 'gpx ')}</gpx>`) },
  { name: 'XML: nothing but opening brackets', outcome: 'unknown-format', make: (size) => text(fill(size, '<')) },
  { name: 'XML: stray ends without end', outcome: 'no-records', make: (size) => text(`<gpx>${fill(size, '</b>')}`) },
  {
    name: 'XML: empty points without end',
    outcome: 'no-time',
    make: (size) => text(`<gpx><trk>${fill(size, '<trkpt/>')}`),
  },
  {
    name: 'XML: points of one and the same second without end',
    outcome: 'a ride',
    make: (size) => text(`<gpx><trk>${fill(size, '<trkpt><time>2026-06-01T08:00:00Z</time></trkpt>')}`),
  },
  {
    name: 'CSV: columns without end',
    outcome: 'bad-csv',
    make: (size) => text(`time_s,speed_mps${fill(size, ',a')}\n0,1${fill(size, ',1')}\n`),
  },
  {
    name: 'CSV: one endless quote',
    outcome: 'bad-csv',
    make: (size) => text(`time_s,speed_mps\n0,"${fill(size, '1,')}`),
  },
  {
    name: 'CSV: short rows without end',
    outcome: 'a ride',
    make: (size) => text(`time_s\n${fill(Math.min(size, 990_000), '1\n')}`),
  },
  { name: 'CSV: empty lines without end', outcome: 'no-records', make: (size) => text(`time_s\n${fill(size, '\n')}`) },
  {
    name: 'CSV: a gear change in each row',
    outcome: 'a ride',
    make: (size) =>
      text(
        `time_s,rear_teeth\n${Array.from({ length: Math.min(size / 10, 99_000) }, (_, i) => `${i},${11 + (i % 2)}`).join('\n')}`,
      ),
  },
  {
    name: 'CSV: bad cells without end',
    outcome: 'no-time',
    make: (size) => text(`time_s,speed_mps\n${fill(Math.min(size, 1_900_000), 'x,x\n')}`),
  },
  {
    name: 'CSV: time running backwards',
    outcome: 'a ride',
    make: (size) => {
      const count = Math.min(490_000, Math.ceil(size / 9));
      return text(`time_s,speed_mps\n${Array.from({ length: count }, (_, i) => `${count - i},8`).join('\n')}`);
    },
  },
];
