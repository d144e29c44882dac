import type { Cause } from '../causes.ts';
import { isGone } from '../likelihood/onset-options.ts';
import type { Particle } from './particles.ts';

/** Probability that a cause's fault was put right by what nobody logged; 0 for a cause no particle holds. */
export function goneUnlogged(particles: readonly Particle[], cause: Cause): number {
  const own = particles.filter((particle) => particle.cause === cause);
  return own.filter(({ onset }) => isGone(onset)).length / Math.max(1, own.length);
}
