import type { Cause } from '../causes.ts';
import type { LookAhead } from '../posterior/look-ahead.ts';

/** With this probability of losing the chain past an end, nobody is sent onto that end cog on purpose. */
const RISKY_FAULT = 0.1;
/** Firm pedalling has to tell this much more than soft to be asked for: shifting under load wears and may slip. */
export const FIRM_MUST_TELL = 1.3;

/**
 * Which shifts a rider may be asked for: none that touches an end cog past which the chain may be lost, and none onto or
 * off an end cog while pressing firmly.
 */
export function safeShifts(lookAhead: LookAhead, cogCount: number): (cog: number, firm: boolean) => boolean {
  const shareOf = (causes: readonly Cause[]): number =>
    lookAhead.particles.filter(({ cause }) => causes.includes(cause)).length / lookAhead.particles.length;
  const keepOffLargest = shareOf(['low-limit-loose', 'hanger-bent']) > RISKY_FAULT;
  const keepOffSmallest = shareOf(['high-limit-loose']) > RISKY_FAULT;
  return (cog, firm) => {
    const [smallest, largest] = [cog === 0, cog === cogCount - 1];
    return !((smallest || largest) && firm) && !(largest && keepOffLargest) && !(smallest && keepOffSmallest);
  };
}
