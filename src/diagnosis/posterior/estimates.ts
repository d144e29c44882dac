import type { Bike } from '../../drivetrain/bike.ts';
import { type Cause, isIndexing } from '../causes.ts';
import type { CogError, Estimate, TurnEstimate } from '../diagnosis.ts';
import { assumedBeforehand } from '../imagined-bike/draw.ts';
import { inOrder } from '../imagined-bike/healthy-setup.ts';
import { pulleyError } from '../imagined-bike/setup.ts';
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

const SIZES = 40;

/** What clicks or steps are counted by. */
interface TurnsAsked {
  readonly electronic: boolean;
  /** Parameters that were adjusted between the rides that were weighed. */
  readonly adjusted: readonly string[];
}

/**
 * Clicks or steps that would set the index offset right; if the likeliest cause is that offset, as far as it is the cause. Where none was logged
 * the rides say nothing of how far one moves the pulley: it is then what it was taken to be beforehand, and not what it happens to be on the few
 * imagined bikes that fit best.
 */
export function turnsNeeded(
  particles: readonly Particle[],
  top: Cause,
  { electronic, adjusted }: TurnsAsked,
): TurnEstimate {
  const counted = isIndexing(top) ? particles.filter(({ cause }) => cause === top) : particles;
  const size = electronic ? 'stepMm' : 'clickMm';
  const unit = electronic
    ? ({ parameter: 'index-offset', unit: 'steps' } as const)
    : ({ parameter: 'cable-tension', unit: 'clicks' } as const);
  const beforehand = assumedBeforehand(size, SIZES);
  const sizesOf = adjusted.includes(unit.parameter) ? ({ draw }: Particle) => [draw.assumed[size]] : () => beforehand;
  const turns = (counted.length > 0 ? counted : particles).flatMap((particle) =>
    sizesOf(particle).map((mm) => (-particle.now.offset * particle.now.toleranceMm) / mm),
  );
  return { ...unit, ...estimateOf(turns) };
}
