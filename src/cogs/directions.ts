import type { Direction } from '../shifts/ride-events.ts';

/** Both ways of shifting, in the order in which they are told. */
export const directions: readonly Direction[] = ['to-larger', 'to-smaller'];
