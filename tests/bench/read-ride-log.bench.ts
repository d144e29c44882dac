import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { fitRide, START } from '../ride-log/fit-ride.ts';
import { gpx, tcx } from '../ride-log/track-encoder.ts';
import { measure } from './measure.ts';

/** A ride of five hours at one record a second with 900 gear records, in each format. */
const SECONDS = 18_000;
const speedAt = (i: number): number => 8 + 3 * Math.sin(i / 300);
const cadenceAt = (i: number): number => Math.round(85 + 10 * Math.sin(i / 40));
const records = Array.from({ length: SECONDS }, (_, i) => ({
  time: START + i,
  speed: Math.round(speedAt(i) * 1000),
  cadence: cadenceAt(i),
  power: 200,
  distance: i * 800,
}));
const gears = Array.from({ length: 900 }, (_, i) => ({
  time: START + i * 20,
  word: 1 + (i % 11) + (11 + (i % 11)) * 256,
}));
const text = (content: string): Uint8Array => new TextEncoder().encode(content);
const iso = (i: number): string => new Date((START + 631_065_600 + i) * 1000).toISOString();
const inTpx = (i: number): string => `<TPX><Speed>${speedAt(i).toFixed(3)}</Speed><Watts>200</Watts></TPX>`;
const inGpx = (i: number): string =>
  `<a:TrackPointExtension><a:cad>${cadenceAt(i)}</a:cad><a:speed>${speedAt(i).toFixed(3)}</a:speed></a:TrackPointExtension>`;
const points = (inside: (i: number) => string) => records.map((_, i) => ({ time: iso(i), inside: inside(i) }));

const files: Record<string, Uint8Array> = {
  fit: fitRide(records, gears),
  csv: text(
    `time,speed_mps,cadence_rpm,power_w,rear_teeth\n${records.map((_, i) => `${iso(i)},${speedAt(i).toFixed(3)},${cadenceAt(i)},200,${i % 20 ? '' : 11 + (i % 11)}`).join('\n')}\n`,
  ),
  tcx: text(tcx(points((i) => `<Cadence>${cadenceAt(i)}</Cadence><Extensions>${inTpx(i)}</Extensions>`))),
  gpx: text(gpx(points((i) => `<extensions>${inGpx(i)}</extensions>`))),
};
for (const [format, bytes] of Object.entries(files))
  measure(`${format}, 5 h, ${Math.round(bytes.length / 1000)} kB`, () => readRideLog(`ride.${format}`, bytes));
