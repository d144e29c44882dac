import type { Bike } from '../../drivetrain/bike.ts';
import type { Cause } from '../causes.ts';
import type { CogError, Estimate, TurnEstimate } from '../diagnosis.ts';
import { inOrder } from '../imagined-bike/healthy-setup.ts';
import { pulleyError, type Setup } from '../imagined-bike/setup.ts';
import type { Particle } from './particles.ts';

/** Share of the values left out on each side of an interval. */
const TAIL = 0.025;

/** The bounds that leave 2.5 % on each side, and the mean, kept between them where a few far values pull it out. Needs at least one value. */
function estimateOf(values: readonly number[]): Estimate {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  const [low, high] = [at(TAIL), at(1 - TAIL)];
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean: Math.min(high, Math.max(low, mean)), low, high };
}

/**
 * How far the guide pulley stands off at the middle of the cassette as the bike is now, mm, inboard positive: what indexing alone could
 * set right. A bent hanger tilts about a cog that need not be the middle one, which moves it there too.
 */
export function lateralOffset(particles: readonly Particle[]): Estimate {
  return estimateOf(
    particles.map(({ now }) => (now.offset + now.tilt * (inOrder.pivot - now.pivot)) * now.toleranceMm),
  );
}

/** Lateral error at rest on each cog, mm: the mean of arriving from either side. */
export function lateralErrors(particles: readonly Particle[], bike: Bike): CogError[] {
  const last = bike.cassette.length - 1;
  return bike.cassette.map((teeth, cog) => ({
    teeth,
    ...estimateOf(
      particles.map(
        ({ now }) => ((pulleyError(now, cog / last, true) + pulleyError(now, cog / last, false)) / 2) * now.toleranceMm,
      ),
    ),
  }));
}

const tensionCauses: readonly Cause[] = ['cable-tension-low', 'cable-tension-high'];

/** Clicks or steps that would set the index offset right; if the likeliest cause is tension, as far as it is the cause. */
export function turnsNeeded(particles: readonly Particle[], top: Cause, electronic: boolean): TurnEstimate {
  const counted = tensionCauses.includes(top) ? particles.filter(({ cause }) => cause === top) : particles;
  const turns = (counted.length > 0 ? counted : particles).map(
    ({ now, draw }) => (-now.offset * now.toleranceMm) / (electronic ? draw.assumed.stepMm : draw.assumed.clickMm),
  );
  return electronic
    ? { parameter: 'index-offset', unit: 'steps', ...estimateOf(turns) }
    : { parameter: 'cable-tension', unit: 'clicks', ...estimateOf(turns) };
}

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
const STILL_OUT = { offset: 0.75, tight: -0.25, loose: 1.5, gap: 0.75, tilt: 1, friction: 0.75 } as const;

/** Whether a setting is now so far out that it troubles shifts by itself. */
function stillOut(cause: Cause, now: Setup): boolean {
  switch (cause) {
    case 'no-fault':
    case 'worn-drivetrain':
      return false;
    case 'cable-tension-low':
    case 'cable-tension-high':
      return Math.abs(now.offset) > STILL_OUT.offset;
    case 'low-limit-tight':
      return now.lowClear < STILL_OUT.tight;
    case 'low-limit-loose':
      return now.lowClear > STILL_OUT.loose;
    case 'high-limit-tight':
      return now.highClear < STILL_OUT.tight;
    case 'high-limit-loose':
      return now.highClear > STILL_OUT.loose;
    case 'pulley-gap-small':
    case 'pulley-gap-large':
      return Math.abs(now.gap) > STILL_OUT.gap;
    case 'hanger-bent':
      return Math.abs(now.tilt) > STILL_OUT.tilt;
    case 'cable-friction':
      return now.frictionOut > STILL_OUT.friction;
  }
}

/** Probability that the fault is still there after the last adjustment: most of it is left, or the part still stands too far out. 1 for a cause no particle holds. */
export function stillThere(particles: readonly Particle[], cause: Cause): number {
  const own = particles.filter((particle) => particle.cause === cause);
  if (own.length === 0 || cause === 'no-fault') return 1;
  return (
    own.filter((particle) => remaining(cause, particle) > MOSTLY_LEFT || stillOut(cause, particle.now)).length /
    own.length
  );
}
