import { type CassetteEnd, cassetteEnds } from '../../adjustments/end-cog-count.ts';
import { limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { standsOut } from '../now/still-there.ts';
import type { Particle } from '../posterior/particles.ts';

/**
 * With more than this probability of a fault by which the chain is lost past an end, nobody is sent onto that end cog on purpose. It is more
 * than is held of any bike beforehand (`causePriors`), so that something has to speak for such a fault: limits show nowhere but on the end cogs.
 */
const RISKY_FAULT = 0.25;

/** The causes by which the chain may be lost past an end: its limit, and a hanger that bends towards the spokes. */
const dangersAt = (end: CassetteEnd): readonly Cause[] =>
  end === 'past-largest' ? [limitAt[end].loose, 'hanger-bent'] : [limitAt[end].loose];

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
    const dangers = dangersAt(end);
    const own = particles.filter(({ cause, now }) => dangers.includes(cause) || standsOut(limitAt[end].loose, now));
    return own.length > RISKY_FAULT * particles.length || named.some((cause) => dangers.includes(cause));
  };
  return new Set(cassetteEnds.filter((end) => keepOff.has(end) || risky(end)));
}
