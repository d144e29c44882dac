import type { Cause } from '../causes.ts';
import type { Setup } from '../imagined-bike/setup.ts';
import type { Particle } from '../posterior/particles.ts';

/** How much of a fault is left, as a share of what it was at first; below 0 where an adjustment went too far. */
function remaining(cause: Cause, { atFirst, now, healthy }: Pick<Particle, 'atFirst' | 'now' | 'healthy'>): number {
  const left = (size: 'lowClear' | 'highClear'): number =>
    (now[size] - healthy[size]) / (atFirst[size] - healthy[size]);
  switch (cause) {
    case 'no-fault':
      return 0;
    case 'cable-tension-low':
    case 'cable-tension-high':
      return now.offset / atFirst.offset;
    case 'low-limit-tight':
    case 'low-limit-loose':
      return left('lowClear');
    case 'high-limit-tight':
    case 'high-limit-loose':
      return left('highClear');
    case 'pulley-gap-small':
    case 'pulley-gap-large':
      return now.gap / atFirst.gap;
    case 'hanger-bent':
      return now.tilt / atFirst.tilt;
    case 'cable-friction':
      return now.frictionOut / atFirst.frictionOut;
    case 'worn-drivetrain':
      return now.skipPerS / atFirst.skipPerS;
  }
}

/** A fault of which more than this share is left is still there. An assumption of ours. */
const MOSTLY_LEFT = 0.6;
/** So is one that still stands beyond these, however large it was: lengths in tolerances, the gap in units of the harmless error (assumptions of ours). */
const STILL_OUT = { offset: 0.75, tight: -0.75, loose: 1.5, gap: 0.75, tilt: 1, friction: 0.75 } as const;

/** Whether a setting stands so far out, on the side of this cause, that it troubles shifts by itself. */
export function standsOut(cause: Cause, setup: Setup): boolean {
  switch (cause) {
    case 'no-fault':
    case 'worn-drivetrain':
      return false;
    case 'cable-tension-low':
      return setup.offset < -STILL_OUT.offset;
    case 'cable-tension-high':
      return setup.offset > STILL_OUT.offset;
    case 'low-limit-tight':
      return setup.lowClear < STILL_OUT.tight;
    case 'low-limit-loose':
      return setup.lowClear > STILL_OUT.loose;
    case 'high-limit-tight':
      return setup.highClear < STILL_OUT.tight;
    case 'high-limit-loose':
      return setup.highClear > STILL_OUT.loose;
    case 'pulley-gap-small':
      return setup.gap < -STILL_OUT.gap;
    case 'pulley-gap-large':
      return setup.gap > STILL_OUT.gap;
    case 'hanger-bent':
      return Math.abs(setup.tilt) > STILL_OUT.tilt;
    case 'cable-friction':
      return setup.frictionOut > STILL_OUT.friction;
  }
}

/**
 * Probability that the fault is still there, as it was named, after the last adjustment: most of it is left, or the part still stands too
 * far out on the same side. 1 for a cause no particle holds.
 */
export function stillThere(particles: readonly Particle[], cause: Cause): number {
  const own = particles.filter((particle) => particle.cause === cause);
  if (own.length === 0 || cause === 'no-fault') return 1;
  return (
    own.filter((particle) => remaining(cause, particle) > MOSTLY_LEFT || standsOut(cause, particle.now)).length /
    own.length
  );
}

/** Share of the imagined bikes whose setting now stands out on the side of this cause; 0 without any. */
export const shareStandingOut = (particles: readonly Particle[], cause: Cause): number =>
  particles.filter(({ now }) => standsOut(cause, now)).length / Math.max(1, particles.length);
