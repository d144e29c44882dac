import { counted } from '../../src/numeric/counted.ts';
import type { Bike, BikeSummary } from '../api/answers.ts';
import { saidOfFile } from '../words/said-of-file.ts';
import type { AdjustmentsFile, BikeFile, SortedFiles } from './companion-files.ts';
import { folderOf, pathOf } from './file-path.ts';
import { bikeFileDoubt, knownBikes } from './known-bike.ts';

/** A bike that can be added: what its folder holds. */
export interface FleetBike {
  /** Below the folder that all have in common. */
  readonly folder: string;
  readonly bike: Bike;
  /** The bike that is here already and is this one; null where it is new. */
  readonly here: BikeSummary | null;
  /** What speaks against making it, in a sentence; null where nothing does. */
  readonly doubt: string | null;
  readonly rides: readonly File[];
  readonly adjustments: readonly AdjustmentsFile[];
}

/** A folder, or the top, from which nothing is taken, and why. */
export interface LeftOutFolder {
  readonly folder: string;
  readonly why: string;
}

/** The files of adjustments that are left out because they are broken, each in a sentence. */
export const leftOutLogs = (adjustments: readonly AdjustmentsFile[]): string[] =>
  adjustments.flatMap(({ file: { name }, fault }) =>
    fault === null ? [] : [`${name}: ${saidOfFile(name, fault)} It is left out until it is put right.`],
  );

/** Bikes that were chosen together, a folder each. */
export interface Fleet {
  readonly bikes: readonly FleetBike[];
  readonly leftOut: readonly LeftOutFolder[];
}

/** A folder with what lies in it and belongs together. */
interface Folder {
  readonly path: string;
  readonly bikeFiles: BikeFile[];
  readonly rides: File[];
  readonly adjustments: AdjustmentsFile[];
}

const isBelow = (path: string, folder: string): boolean => folder === '' || path.startsWith(`${folder}/`);

/**
 * The folder whose bike a file belongs to: the nearest above it that has a bike file; null where there is none. A folder with bikes in folders
 * below it has only what lies in it itself: a bike that lacks its file is not taken for the one above.
 */
function ownerOf(folder: string, bikeFolders: readonly string[]): string | null {
  if (bikeFolders.includes(folder)) return folder;
  const above = bikeFolders.filter((one) => isBelow(folder, one)).sort((a, b) => b.length - a.length)[0];
  return above === undefined || bikeFolders.some((one) => one !== above && isBelow(one, above)) ? null : above;
}

/** Everything by the folder it belongs to; what belongs to no bike by the folder that it lies in. */
function byFolder({ bikes, rides, adjustments }: SortedFiles): Map<string, Folder> {
  const bikeFolders = [...new Set(bikes.map(({ path }) => folderOf(path)))];
  const folders = new Map<string, Folder>();
  const of = (path: string): Folder => {
    const own = folderOf(path);
    const place = ownerOf(own, bikeFolders) ?? own;
    const folder = folders.get(place) ?? { path: place, bikeFiles: [], rides: [], adjustments: [] };
    folders.set(place, folder);
    return folder;
  };
  for (const one of bikes) of(one.path).bikeFiles.push(one);
  for (const ride of rides) of(pathOf(ride)).rides.push(ride);
  for (const log of adjustments) of(pathOf(log.file)).adjustments.push(log);
  return folders;
}

/** The folder that all have in common; empty where they have none. */
function commonFolder(paths: readonly string[]): string {
  const [first = [], ...rest] = paths.map((path) => path.split('/'));
  const parts = first.findIndex((part, i) => rest.some((other) => other[i] !== part));
  return first.slice(0, parts < 0 ? first.length : parts).join('/');
}

const sameBike = (a: Bike, b: Bike): boolean => knownBikes(a, [{ bike: b }]).length > 0;

/** Why nothing is taken from a folder; null where it holds one bike that can be told from all others. */
function whyLeftOut(
  { bikeFiles, rides, adjustments }: Folder,
  others: readonly { readonly name: string; readonly bike: Bike }[],
  here: readonly BikeSummary[],
): string | null {
  const [only, ...more] = bikeFiles;
  if (!only) {
    const files = [...rides, ...adjustments.map(({ file }) => file)].map(({ name }) => name);
    const shown = files.length > 3 ? [...files.slice(0, 3), '…'] : files;
    return `${counted(files.length, 'file belongs', 'files belong')} to none of the bikes, since no bike file lies with ${files.length === 1 ? 'it' : 'them'} (${shown.join(', ')}). Add a bike file to the folder, or add ${files.length === 1 ? 'it' : 'them'} by ${files.length === 1 ? 'itself' : 'themselves'}.`;
  }
  if (more.length > 0)
    return `Two bike files or more in one folder (${bikeFiles.map(({ file }) => file).join(', ')}): nobody can tell which bike was ridden. Leave one, or give each bike a folder of its own.`;
  const { bike, file, fault } = only;
  if (!bike) return `${file}: ${saidOfFile(file, fault ?? '')}`;
  const alike = others.find((other) => sameBike(other.bike, bike));
  if (alike) return `${alike.name} describes the same bike, “${bike.name}”. Give each bike a name of its own.`;
  const known = knownBikes(bike, here);
  return known.length > 1
    ? `${counted(known.length, 'bike')} here are called “${bike.name}” and have this drivetrain: nobody can tell which one it is. Give them names of their own, or add its rides by themselves.`
    : null;
}

/** The bikes of a fleet among the chosen files, where bike files lie in several folders; null where they do not. */
export function fleetOf(sorted: SortedFiles, here: readonly BikeSummary[]): Fleet | null {
  if (new Set(sorted.bikes.map(({ path }) => folderOf(path))).size < 2) return null;
  const folders = [...byFolder(sorted).values()].sort((a, b) => byPath.compare(a.path, b.path));
  const common = commonFolder(folders.map(({ path }) => path));
  const nameOf = (path: string): string =>
    path === common
      ? common.slice(common.lastIndexOf('/') + 1) || 'Without a folder'
      : path.slice(common === '' ? 0 : common.length + 1);
  const bikes: FleetBike[] = [];
  const leftOut: LeftOutFolder[] = [];
  for (const folder of folders) {
    const others = folders
      .filter((other) => other !== folder && other.bikeFiles.length === 1)
      .flatMap(({ path, bikeFiles: [{ bike }] }) => (bike ? [{ name: nameOf(path), bike }] : []));
    const why = whyLeftOut(folder, others, here);
    const bike = folder.bikeFiles[0]?.bike;
    if (why !== null || !bike) leftOut.push({ folder: nameOf(folder.path), why: why ?? '' });
    else bikes.push(fleetBike(nameOf(folder.path), bike, folder, here));
  }
  return { bikes, leftOut };
}

const byPath = new Intl.Collator('en', { numeric: true });

function fleetBike(folder: string, bike: Bike, { rides, adjustments }: Folder, all: readonly BikeSummary[]): FleetBike {
  const [here = null] = knownBikes(bike, all);
  return { folder, bike, here, doubt: here ? null : bikeFileDoubt(bike, null, all), rides, adjustments };
}
