import { chain, FitEncoder } from './fit-encoder.ts';
import { fitRide, plainRecords, START } from './fit-ride.ts';
import { gpx, tcx } from './track-encoder.ts';

const text = (content: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(content);
const gears = Array.from({ length: 12 }, (_, i) => ({ time: START + 5 * i, word: 1 + (i % 11) + (11 + 2 * i) * 256 }));
const points = Array.from({ length: 40 }, (_, i) => ({
  time: new Date(Date.UTC(2026, 5, 1, 8, 0, i)).toISOString(),
  lat: 10 + i / 1e4,
}));

/** A hostile developer, in small: fields named after what must not be touched. */
function developerFields(): Uint8Array<ArrayBuffer> {
  const encoder = new FitEncoder({ bigEndian: true });
  encoder.define(5, 206, [
    [0, 'uint8'],
    [1, 'uint8'],
    [2, 'uint8'],
    [3, 'string'],
  ]);
  encoder.record(5, [0, 0, 2, [...Buffer.from('__proto__')]]);
  encoder.define(
    0,
    20,
    [
      [253, 'uint32'],
      [6, 'uint16'],
    ],
    [[0, 1, 0]],
  );
  for (let i = 0; i < 40; i++) encoder.record(0, [START + i, 8000], [7]);
  return encoder.segment();
}

/** Small files of every kind, whole, for mutations to begin from. */
export const FUZZ_SEEDS: Readonly<Record<string, Uint8Array<ArrayBuffer>>> = {
  fit: fitRide(plainRecords(60), gears),
  'fit, compressed, big endian': fitRide(plainRecords(60), gears, {
    bigEndian: true,
    compressed: true,
    enhanced: true,
  }),
  'fit, chained': chain(fitRide(plainRecords(30)), fitRide(plainRecords(30, START + 60), gears, { headerSize: 12 })),
  'fit, developer fields': developerFields(),
  tcx: text(
    tcx(
      points.map(({ time }) => ({
        time,
        inside: '<Cadence>90</Cadence><Extensions><n:TPX><n:Speed>8</n:Speed></n:TPX></Extensions>',
      })),
    ),
  ),
  gpx: text(
    gpx(points.map((point) => ({ ...point, inside: '<extensions><a:x><a:cad>90</a:cad></a:x></extensions>' }))),
  ),
  csv: text(
    `time,speed_mps,cadence_rpm,power_w,distance_m,front_teeth,rear_teeth\n${points.map(({ time }, i) => `${time},8,90,200,${8 * i},32,${i % 5 ? '' : 11 + i}`).join('\n')}\n`,
  ),
  'csv, semicolons, UTF-16': Uint8Array.from(
    Buffer.from(`\uFEFFtime_s;speed_mps;rear_teeth\n${points.map((_, i) => `${i};8,5;"21"`).join('\n')}\n`, 'utf16le'),
  ),
};
