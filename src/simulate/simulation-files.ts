import { HOUR_MS } from '../numeric/time-units.ts';
import { adjustmentsCsv } from './files/adjustments-csv.ts';
import { BikeStory } from './mechanics/bike-story.ts';
import { resolveOptions } from './setting/resolve-options.ts';
import type { SimulationOptions } from './setting/simulation-options.ts';
import { rideStartMs, simulateResolved } from './simulate-rides.ts';

/** A file to write: its path relative to the chosen folder, with forward slashes. */
export interface SimulationFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/**
 * Everything one simulation leaves behind: each ride in each format, its truth as JSON beside it (`NAME.truth.json`),
 * `bike.json` and `adjustments.csv`.
 *
 * @throws SimulationOptionError where the options cannot be simulated.
 */
export function simulationFiles(options: SimulationOptions): SimulationFile[] {
  const resolved = resolveOptions(options);
  const text = (path: string, content: string): SimulationFile => ({ path, bytes: new TextEncoder().encode(content) });
  const files: SimulationFile[] = [];
  for (const ride of simulateResolved(resolved)) {
    for (const [format, bytes] of Object.entries(ride.bytes)) files.push({ path: `${ride.name}.${format}`, bytes });
    files.push(text(`${ride.name}.truth.json`, `${JSON.stringify(ride.truth)}\n`));
  }
  const work = new BikeStory(resolved).work
    .filter((done) => done.afterRide < resolved.rides)
    .map((done) => ({
      ...done,
      // In the evening after the ride before; before the first ride on the day before it.
      atMs: rideStartMs(resolved, done.afterRide - 1) + resolved.durationS * 1000 + 3 * HOUR_MS,
    }));
  files.push(text('bike.json', `${JSON.stringify(resolved.bike, null, 2)}\n`));
  files.push(text('adjustments.csv', adjustmentsCsv(work)));
  return files;
}
