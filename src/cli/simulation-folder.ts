import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { UsageError } from '../errors/usage-error.ts';
import type { SimulationFile } from '../simulate/simulation-files.ts';

const TRUTH = '.truth.json';

/**
 * Makes sure that only what an earlier simulation wrote is replaced: a ride with its truth beside it, and the bike and
 * adjustments of such rides.
 *
 * @throws UsageError naming the first file that is in the way
 */
export function refuseToReplace(folder: string, files: readonly Pick<SimulationFile, 'path'>[]): void {
  const there = files.map(({ path }) => path).filter((path) => existsSync(join(folder, path)));
  const rides = new Set(there.filter((path) => path.endsWith(TRUTH)).map((path) => path.slice(0, -TRUTH.length)));
  const isRide = (path: string): boolean => files.some((file) => file.path === `${nameOf(path)}${TRUTH}`);
  const inTheWay = there.find((path) => (isRide(path) ? !rides.has(nameOf(path)) : rides.size === 0));
  if (inTheWay !== undefined)
    throw new UsageError(
      `--out ${folder}: ${join(folder, inTheWay)} is there already and was not written by simulate. Name another folder, or move it away.`,
    );
}

/** Names of rides in the folder that another simulation wrote and this one leaves. */
export const ridesLeft = (folder: string, files: readonly Pick<SimulationFile, 'path'>[]): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith(TRUTH) && !files.some(({ path }) => path === name))
    .map((name) => name.slice(0, -TRUTH.length))
    .sort();

const nameOf = (path: string): string => path.replace(/\.truth\.json$|\.[^.]+$/, '');
