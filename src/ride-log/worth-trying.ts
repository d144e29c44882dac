import { packedWith } from './packed-with.ts';
import { readsLikeRide } from './reads-like-ride.ts';

/** True where a file's name ends as a ride log's does: one that then cannot be read as a ride is not to be passed over without a word. */
export const isNamedLikeRide = (name: string): boolean => /\.(fit|tcx|gpx|csv)(\.gz)?$/i.test(name);

const isNamedLikePacked = (name: string): boolean => /\.(gz|zip|bz2|xz|zst|7z)$/i.test(name);

/**
 * True where a file that lies in a folder is worth trying as a ride: its name ends as ride logs do, or its beginning
 * reads like one. So is a packed file, which is no ride that can be read but may hold one.
 *
 * @param start the file's first bytes, of which 4096 are enough
 */
export const worthTrying = (name: string, start: Uint8Array): boolean =>
  isNamedLikeRide(name) || (isNamedLikePacked(name) && packedWith(start) !== null) || readsLikeRide(start);
