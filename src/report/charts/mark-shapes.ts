import type { Direction } from '../../shifts/ride-events.ts';

/** Triangles that point the way the chain moves on an axis whose largest cog stands at the right. */
export const directionShape: Readonly<Record<Direction, string>> = {
  'to-larger': 'M-4,-5L5,0L-4,5Z',
  'to-smaller': 'M4,-5L-5,0L4,5Z',
};

/** Kinds of events that a ride strip marks. */
export type StripEventKind = 'late' | 'missed' | 'overshot' | 'ghost' | 'drop' | 'skip';

/** A shape for each kind, so that none is told by colour alone. */
export const eventShape: Readonly<Record<StripEventKind, string>> = {
  late: 'M0,-5A5,5,0,1,1,0,5A5,5,0,1,1,0,-5Z',
  missed: 'M-5,-5L5,5M5,-5L-5,5',
  overshot: 'M0,-6L5,0L0,6L-5,0Z',
  ghost: 'M-5,-5H5V5H-5Z',
  drop: 'M-6,-5H6L0,6Z',
  skip: 'M0,-6V6M-5,-3L5,3M5,-3L-5,3',
};

/** What each kind is called in a legend. */
export const eventName: Readonly<Record<StripEventKind, string>> = {
  late: 'late',
  missed: 'missed',
  overshot: 'overshot',
  ghost: 'ghost shift',
  drop: 'chain drop',
  skip: 'skip',
};
