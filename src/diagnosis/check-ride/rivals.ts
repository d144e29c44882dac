import type { Cause } from '../causes.ts';
import { LookAhead } from '../posterior/look-ahead.ts';
import { particlesOf } from '../posterior/particles.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';

/** As many imagined bikes of one cause as of the other, however likely each is. */
const PARTICLES_EACH = 80;

/** Imagined bikes of two causes that are to be told apart. `rows`: particles of the one and of the other. */
export interface Rivals {
  readonly between: readonly [Cause, Cause];
  readonly lookAhead: Pick<LookAhead, 'particles' | 'expect' | 'skipsPerHour'>;
  readonly rows: readonly [readonly number[], readonly number[]];
}

/** The bikes that the evidence has left standing of each of two causes. */
export function rivalsOf(weighed: WeighedCauses, between: readonly [Cause, Cause]): Rivals {
  const particles = between.flatMap((cause) => particlesOf(weighed, cause, PARTICLES_EACH));
  const lookAhead = new LookAhead(particles, weighed.model);
  const rowsOf = (cause: Cause): number[] => [...particles.keys()].filter((i) => particles[i].cause === cause);
  return { between, lookAhead, rows: [rowsOf(between[0]), rowsOf(between[1])] };
}
