/** How the rider's feet treat the pedals. */
export type PedalMode = 'drive' | 'soft' | 'coast';
