import type { Adjustment } from '../../adjustments/adjustment.ts';
import { cassetteEnds } from '../../adjustments/end-cog-count.ts';
import { limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import type { Particle } from '../posterior/particles.ts';
import { failsLike } from './fails-like.ts';
import { chainsLostSince, type SeenSince } from './seen-since.ts';
import { shareStandingOut } from './still-there.ts';
import { oppositeOf, type TurnableFault, type Turned, turnableFaults, turnedTowards } from './turned-towards.ts';

/** A setting that was turned past the mark, to a fault that was not there at first. */
export interface TurnedTooFar extends Turned {
  readonly fault: TurnableFault;
}

/** What tells whether something was turned too far. */
export interface TurnedFacts {
  /** The cause as first named, and how likely it is. */
  readonly cause: Cause;
  readonly probability: number;
  readonly particles: readonly Particle[];
  /** All rides of the bike. */
  readonly rides: readonly DiagnosisRide[];
  /** Those since the first ride, in order of time. */
  readonly turned: readonly Adjustment[];
  readonly since: SeenSince;
  /** Whether what was ridden in all, and since, is enough to go by the shifts. */
  readonly shiftsTell: boolean;
}

/** A setting stands too far where more than this share of the imagined bikes say so. An assumption of ours. */
const MOST = 0.5;
/** So does one that was out on the other side at first where more than this share do: it was turned that way, and now fails that way. An assumption of ours. */
const ON_THE_OTHER_SIDE = 0.1;
/** A bent hanger as likely as this is seen to before a limit that was opened. An assumption of ours. */
const HANGER_FIRST = 0.85;

/**
 * The setting that an adjustment put out on a side where the fault was not: a limit that was opened and has lost a chain since, or what
 * most imagined bikes hold for out by now while the rides since fail that way. Null where there is none. A bent hanger fails both
 * ways and carries the limits along: what was turned on it in vain is told with it.
 */
export function turnedTooFar(facts: TurnedFacts): TurnedTooFar | null {
  const hangerFirst = facts.cause === 'hanger-bent' && facts.probability >= HANGER_FIRST;
  const opened = hangerFirst ? null : openedTooFar(facts);
  return opened ?? (facts.shiftsTell ? standsTooFar(facts) : null);
}

function openedTooFar({ cause, rides, turned }: TurnedFacts): TurnedTooFar | null {
  for (const end of cassetteEnds) {
    const fault = limitAt[end].loose;
    const opened = cause === fault ? null : turnedTowards(fault, turned);
    if (opened && chainsLostSince(rides, end, Date.parse(opened.lastAt)) > 0) return { ...opened, fault };
  }
  return null;
}

function standsTooFar({ cause, particles, turned, since }: TurnedFacts): TurnedTooFar | null {
  const found = turnableFaults
    .filter((fault) => fault !== cause && failsLike(fault, since))
    // what the first cause explains too, as a bent hanger does whatever fails, is no sign of another but for the other side of its own setting
    .filter((fault) => fault === oppositeOf(cause) || !failsLike(cause, since))
    .map((fault) => ({ fault, towards: turnedTowards(fault, turned), share: shareStandingOut(particles, fault) }))
    .filter(
      ({ fault, towards, share }) =>
        towards !== null && share > (fault === oppositeOf(cause) ? ON_THE_OTHER_SIDE : MOST),
    )
    .sort((a, b) => b.share - a.share)
    .at(0);
  return found?.towards ? { ...found.towards, fault: found.fault } : null;
}
