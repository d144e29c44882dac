import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { firstAfter } from '../first-after.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { NO_COMMAND_S } from '../turn-limits.ts';
import { turningFrom } from '../turns/turning-from.ts';

/**
 * What surrounds one shift, as one possible reading: the cog it started from, and the shifts just before and after, whose effects
 * overlap with its own in the sensors.
 */
export interface ShiftContext {
  readonly weight: number;
  readonly startCog: number;
  /** Cogs from the start to the commanded one, in the reading in which they are most. */
  readonly mostCogs: number;
  /** The shift before brought the chain from `cog` to the start; the sensors show it at `shownS`. */
  readonly before: { readonly cog: number; readonly shownS: number } | null;
  /** The shift after is to take the chain to `cog`; if prompt, the sensors show it at `shownS`. */
  readonly after: { readonly cog: number; readonly shownS: number } | null;
  /** Records up to here tell of this shift. */
  readonly endS: number;
  /** Seconds from the command to the middle of the ratio's change of a prompt shift. */
  readonly lagS: number;
}

/** Beyond this the chain's move is no answer to the command. */
const WINDOW_S = 14;
/** Sensors smear a shift over this long: closer ones are weighed together. */
const OVERLAP_S = 9;
/** A healthy shift takes about this long, so that much of the lag is the chain's, the rest the sensors'. */
const HEALTHY_S = 0.5;
/** With the shift before this close, the trace may still show the cog before it; further back it is to be trusted. */
const UNSURE_START_S = 6;
/** How long after the next shift has shown itself records are still looked at. */
const AFTER_S = 2;
/** Weight of the reading that the shift before was done, against the one that the trace is right. */
const START_AS_COMMANDED = 0.6;

/** A chain that stayed so long on the commanded cog had come to it; what it does after that is not the shift's. */
const STAYED_S = 3;
/** Sensors show a move before the trace names the cog that it leads to. */
const SHOWN_BEFORE_S = 1;

/**
 * When a chain that had come to the commanded cog, and stayed, begins to leave it by itself, as the sensors show it: an unasked shift of its
 * own, if no command came in the 5 s before. Infinity where it does not.
 */
function leavesAgain(
  { log, trace }: Pick<RideInQuestion, 'log' | 'trace'>,
  { toCog, lastTimeS, untilS }: CommandedShift,
  lagS: number,
): number {
  let onIt = 0;
  for (let i = firstAfter(log.timeS, lastTimeS); i < log.timeS.length && log.timeS[i] < untilS; i++) {
    if (trace.cog[i] === toCog) onIt += trace.samples.dtS[i] * trace.driving[i];
    else if (trace.cog[i] >= 0 && onIt >= STAYED_S && log.timeS[i] - lagS - lastTimeS > NO_COMMAND_S)
      return log.timeS[i] - SHOWN_BEFORE_S;
    else onIt = 0;
  }
  return Number.POSITIVE_INFINITY;
}

/** The possible readings of what surrounds shift `j`, weights summing to 1. `lagS`: from command to the middle of the ratio's change. */
export function shiftContexts(
  { log, trace, clock }: Pick<RideInQuestion, 'log' | 'trace' | 'clock'>,
  commanded: readonly CommandedShift[],
  j: number,
  lagS: number,
): ShiftContext[] {
  const shift = commanded[j];
  const previous = commanded[j - 1];
  const next = commanded[j + 1];
  const cogAt = (timeS: number): number => trace.cog[firstAfter(log.timeS, timeS - 0.01) - 1] ?? -1;

  const { left, moment } = clock.standing;
  const apartS = (a: CommandedShift, b: CommandedShift): number => left(b.timeS) - left(a.lastTimeS);
  const nextNear = next && apartS(shift, next) < OVERLAP_S ? next : null;
  const endS = nextNear
    ? Math.min(turningFrom(clock, nextNear.lastTimeS + lagS) + AFTER_S, nextNear.untilS + lagS - HEALTHY_S)
    : shift.untilS + lagS;
  const leftS = leavesAgain({ log, trace }, shift, lagS);
  const shared = {
    after: nextNear ? { cog: nextNear.toCog, shownS: turningFrom(clock, nextNear.lastTimeS + lagS) } : null,
    endS: Math.min(endS, leftS, moment(left(shift.lastTimeS) + WINDOW_S)),
    lagS,
  };

  const traced = cogAt(shift.timeS + Math.max(0, lagS - HEALTHY_S));
  const startCog = traced >= 0 ? traced : shift.fromCog;
  const near = previous !== undefined && apartS(previous, shift) < OVERLAP_S;
  const before = (start: number): ShiftContext['before'] => {
    if (!near) return null;
    const cog = cogAt(previous.timeS + Math.max(0, lagS - HEALTHY_S));
    return start === previous.toCog && cog >= 0 && cog !== start
      ? { cog, shownS: turningFrom(clock, previous.lastTimeS + lagS) }
      : null;
  };
  const starts =
    startCog === shift.fromCog || shift.quietS > UNSURE_START_S
      ? [{ weight: 1, startCog }]
      : [
          { weight: 1 - START_AS_COMMANDED, startCog },
          { weight: START_AS_COMMANDED, startCog: shift.fromCog },
        ];
  const mostCogs = Math.max(...starts.map((start) => Math.abs(shift.toCog - start.startCog)));
  return starts.map((start) => ({ ...start, mostCogs, before: before(start.startCog), ...shared }));
}
