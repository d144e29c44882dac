import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import { droveBefore } from './asked-shifts.ts';
import type { DropCandidate } from './drop-candidate.ts';
import { endCogSign } from './end-cog-sign.ts';
import { type Halt, haltAfter } from './halt-after.ts';

/** A chain behind the largest cog stops legs and bike this soon, and is not back sooner, s. */
const HALT_WITHIN_S = 7;
const HALT_LASTS_S = 12;
/** Who rests with the chain in its place shifts when it goes on: the shift comes so soon after the legs stopped, and so long before the halt ends, s. */
const ASKED_WITHIN_S = 20;
const STANDS_ON_S = 8;

/**
 * Finds chains lost past the largest cog by what the rider does about it: the chain drove there, the legs stopped, the bike halted at once, and
 * standing there a smaller cog was asked for. Nobody who stands where the easiest gear was too hard needs a harder one; a chain that hangs behind
 * the cogs is taken back over a smaller one (common practice, no source).
 */
export function stopsOnLargest(log: RideLog, trace: RideTrace): DropCandidate[] {
  const { model, commands } = trace;
  if (!model) return [];
  const largest = model.cogs - 1;
  return Array.from(commands.timeS).flatMap((askedS, c): DropCandidate[] => {
    if (!(c > 0 && commands.cog[c - 1] === largest && commands.cog[c] >= 0 && commands.cog[c] < largest)) return [];
    const lastTurn = lastTurnBefore(log, askedS);
    if (lastTurn < 0 || !droveBefore(log, trace, lastTurn)) return [];
    const stoppedS = log.timeS[lastTurn];
    const heldS = stoppedS - commands.timeS[c - 1];
    const halt = haltAfter(log, lastTurn, HALT_WITHIN_S, HALT_LASTS_S);
    if (heldS < 0 || askedS - stoppedS > ASKED_WITHIN_S || !standsThere(halt, askedS - stoppedS)) return [];
    return [
      {
        pattern: 'stop-on-largest',
        start: lastTurn,
        signs: [
          endCogSign(heldS),
          { sign: 'asked-off-standing', value: askedS - stoppedS },
          { sign: 'halt-lasts', value: halt.lastsS },
        ],
      },
    ];
  });
}

/** Whether a halt has begun by then and goes on for a while. */
const standsThere = ({ inS, lastsS }: Halt, afterS: number): boolean =>
  inS <= afterS && inS + lastsS - afterS >= STANDS_ON_S;

/** The last record before a moment at which the legs turned; -1 where there is none. */
function lastTurnBefore({ timeS, cadenceRpm }: RideLog, momentS: number): number {
  let i = firstAfter(timeS, momentS) - 1;
  while (i >= 0 && !(cadenceRpm[i] > PEDALLING_RPM)) i--;
  return i;
}
