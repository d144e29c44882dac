import type { Cause } from '../causes.ts';
import type { CassetteEnd } from '../now/setting-now.ts';
import { standsOut } from '../now/still-there.ts';
import type { LookAhead } from '../posterior/look-ahead.ts';

/** With this probability of losing the chain past an end, nobody is sent onto that end cog on purpose. */
const RISKY_FAULT = 0.1;
/** Firm pedalling has to tell this much more than soft to be asked for: shifting under load wears and may slip. */
export const FIRM_MUST_TELL = 1.3;

/**
 * Which shifts a rider may be asked for: none that touches an end cog past which the chain may be lost or was lost since the last
 * adjustment, and none onto or off an end cog while pressing firmly.
 */
export function safeShifts(
  lookAhead: LookAhead,
  cogCount: number,
  keepOff: ReadonlySet<CassetteEnd>,
): (cog: number, firm: boolean) => boolean {
  const { particles } = lookAhead;
  const risky = (loose: Cause, others: readonly Cause[] = []): boolean =>
    particles.filter(({ cause, now }) => cause === loose || others.includes(cause) || standsOut(loose, now)).length >
    RISKY_FAULT * particles.length;
  const keepOffLargest = keepOff.has('past-largest') || risky('low-limit-loose', ['hanger-bent']);
  const keepOffSmallest = keepOff.has('past-smallest') || risky('high-limit-loose');
  return (cog, firm) => {
    const [smallest, largest] = [cog === 0, cog === cogCount - 1];
    return !((smallest || largest) && firm) && !(largest && keepOffLargest) && !(smallest && keepOffSmallest);
  };
}
