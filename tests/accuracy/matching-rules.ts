import type { Outcome, ShiftEvent } from '../../src/shifts/ride-events.ts';
import type { RideTruth, TrueShift } from '../../src/simulate/truth/truth-schema.ts';
import { matchByTime } from './match-by-time.ts';

/*
 * What counts as right. Every figure of the accuracy tables hangs on the rules of this file and on nothing else.
 */

/** A ghost shift, chain drop or skip is found where one was reported within this time of the true one. Pairs are one to one, closest first. */
export const EVENT_WITHIN_S = 5;
/** A reported shift belongs to the true one with the same cogs whose gear record carries the same time, give or take this. */
export const SHIFT_WITHIN_S = 2;
/** Only ghost shifts that held longer are scored: a shorter one that is reported, or not, counts for nothing. */
export const GHOST_HELD_OVER_S = 3;
/**
 * A true ghost shift is asked for only where the crank drove the wheel for so long before the next command: one that happens while
 * the rider coasts on, or just before a command to the same cog, leaves no mark. Such may be reported or not; both are left out, and counted.
 */
export const GHOST_DRIVEN_S = 3;
/**
 * A true shift this close to 1.5 or 5 crank turns may be judged either way: it counts as what the program says. Sensors of one second
 * cannot tell it; the same figures without this rule are printed beside.
 */
const BORDERLINE_REVS = 0.25;
/** A second counts as settled when no command and no change of cog or ring happened for so long. */
export const SETTLED_AFTER_S = 4;
/**
 * Shifts with no other shift within this time before or after are counted once more by themselves: amid quicker series, whole-second
 * records and sensors 1 to 4 s late show little of a single shift.
 */
export const ALONE_S = 5;
/** A bin of the calibration with fewer events says little. */
export const WELL_FILLED = 50;

const limits: readonly { readonly revs: number; readonly below: Outcome; readonly above: Outcome }[] = [
  { revs: 1.5, below: 'clean', above: 'late' },
  { revs: 5, below: 'late', above: 'missed' },
];

/** The outcomes that are right for a true shift: its own, and for a borderline one its neighbour too. */
export function rightOutcomes({ outcome, crankRevs }: TrueShift): readonly Outcome[] {
  const limit = limits.find(({ revs }) => crankRevs !== null && Math.abs(crankRevs - revs) <= BORDERLINE_REVS);
  return limit && (outcome === limit.below || outcome === limit.above) ? [limit.below, limit.above] : [outcome];
}

/** For each true shift the index of the reported one, -1 where none has its time and cogs. Shifts unjudged on either side are paired too. */
export function pairShifts(
  truth: readonly TrueShift[],
  reported: readonly ShiftEvent[],
  cassette: readonly number[],
): Int32Array {
  return matchByTime(
    truth.map((shift) => shift.recordedAtS),
    reported.map((shift) => shift.timeS),
    SHIFT_WITHIN_S,
    (t, r) => truth[t].fromTeeth === cassette[reported[r].fromCog] && truth[t].toTeeth === cassette[reported[r].toCog],
  );
}

/** Seconds in which the crank drove the wheel while a ghost shift held, up to the next gear record. */
export function ghostSeenS({ perSecond, commands }: RideTruth, atS: number, heldS: number): number {
  const next = commands.find(({ recordedAtS }) => recordedAtS >= atS - 1)?.recordedAtS ?? Number.POSITIVE_INFINITY;
  return perSecond.driving
    .slice(Math.ceil(atS), Math.floor(Math.min(atS + heldS, next)) + 1)
    .reduce((sum, driving) => sum + driving, 0);
}

/** True where a second from the start was settled pedalling: the crank drove the wheel at over 30 rpm, and nothing had been asked or had moved for 4 s. */
export function settledSeconds({ perSecond, commands, gears }: RideTruth): Uint8Array {
  const count = perSecond.cogTeeth.length;
  const settled = Uint8Array.from(perSecond.driving, (driving, s) =>
    driving === 1 && perSecond.cadenceRpm[s] > 30 && perSecond.cogTeeth[s] !== null ? 1 : 0,
  );
  const unsettle = (fromS: number, toS: number): void => {
    settled.fill(0, Math.max(0, Math.ceil(fromS)), Math.min(count, Math.ceil(toS + SETTLED_AFTER_S)));
  };
  for (const { atS, recordedAtS } of commands) unsettle(Math.min(atS, recordedAtS), Math.max(atS, recordedAtS));
  for (const { atS } of gears) unsettle(atS, atS);
  for (let s = 1; s < count; s++) if (perSecond.ringTeeth[s] !== perSecond.ringTeeth[s - 1]) unsettle(s - 1, s);
  return settled;
}
