import type { Bike } from '../../drivetrain/bike.ts';
import type { Cause } from '../causes.ts';
import type { CogError, Estimate, TurnEstimate } from '../diagnosis.ts';
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
