import type { EvidenceKind } from '../../gear-trace/gear-trace.ts';
import type { Direction, DropSide } from '../../shifts/ride-events.ts';

/** Directions, with what they feel like: riders mean opposite things by other words for them. */
export const directionWords: Readonly<Record<Direction, string>> = {
  'to-larger': 'to larger cogs (towards the spokes, easier)',
  'to-smaller': 'to smaller cogs (towards the frame, harder)',
};

/** Where a dropped chain went. */
export const dropSideWords: Readonly<Record<DropSide, string>> = {
  'past-largest': 'past the largest cog, towards the spokes',
  'past-smallest': 'past the smallest cog, towards the frame',
  chainring: 'off the chainring',
  unknown: 'side not known',
};

/** What a ride's records allow to be seen. */
export const evidenceWords: Readonly<Record<EvidenceKind, string>> = {
  full: 'gear records, cadence and speed: commanded and actual cog are compared',
  'commands-only':
    'gear records without cadence, or without a speed that shows the gears: no shift can be judged, and how the rider answered a failed one is weak evidence',
  'ratio-only': 'cadence and speed without gear records: the actual cog is seen, but not what was asked for',
  none: 'neither gear records nor cadence with a speed that shows the gears: nothing about shifting can be seen',
};

/** The same in two words, for a table. */
export const evidenceLabels: Readonly<Record<EvidenceKind, string>> = {
  full: 'full',
  'commands-only': 'commands only',
  'ratio-only': 'ratio only',
  none: 'none',
};
