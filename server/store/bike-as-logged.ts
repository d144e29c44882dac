import { actuationAsLogged } from '../../src/adjustments/actuation-as-logged.ts';
import type { StoredBike } from './bike-store.ts';

/**
 * The stored bike as its rider knows it: a guess gives way to what the log of its adjustments tells about the actuation, as on the command line.
 * A bike that somebody wrote down stays as it was written.
 *
 * @param adjustments of this bike, the earliest first
 */
export const bikeAsLogged = (stored: StoredBike, adjustments: readonly { readonly parameter: string }[]): StoredBike =>
  stored.source === 'guessed' && stored.readable ? { ...stored, ...actuationAsLogged(stored, adjustments) } : stored;
