import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { Cause } from '../causes.ts';
import { standsOut } from '../now/still-there.ts';
import type { Particle } from '../posterior/particles.ts';

/**
 * With more than this probability of a fault by which the chain is lost past an end, nobody is sent onto that end cog on purpose. It is more
 * than is held of any bike beforehand (`causePriors`), so that something has to speak for such a fault: limits show nowhere but on the end cogs.
 */
const RISKY_FAULT = 0.25;

/** The limit that lets the chain past each end, and what else the next step warns of there. */
const dangers: Readonly<Record<CassetteEnd, readonly [loose: Cause, ...others: Cause[]]>> = {
  'past-largest': ['low-limit-loose', 'hanger-bent'],
  'past-smallest': ['high-limit-loose'],
};

/**
 * The ends of the cassette that no shift is asked for at: past which the chain was lost and may be lost again, past which it may be lost by
 * how likely the causes are, and those that the next step itself warns of.
 *
 * @param named the causes that the next step is about
 */
export function endsAtRisk(
  particles: readonly Particle[],
  keepOff: ReadonlySet<CassetteEnd>,
  named: readonly Cause[],
): Set<CassetteEnd> {
  const risky = (end: CassetteEnd): boolean => {
    const [loose] = dangers[end];
    const own = particles.filter(({ cause, now }) => dangers[end].includes(cause) || standsOut(loose, now));
    return own.length > RISKY_FAULT * particles.length || named.some((cause) => dangers[end].includes(cause));
  };
  return new Set((['past-largest', 'past-smallest'] as const).filter((end) => keepOff.has(end) || risky(end)));
}
