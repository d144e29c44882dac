import type { ShiftEvent } from '../../shifts/ride-events.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';

/** So many shifts, and trouble among them, are known beforehand of any group: a rate of one in twenty, that a few doubts do not move. Assumption of ours. */
const BEFOREHAND = { trouble: 0.5, shifts: 10 };
const ROUNDS = 30;
const A_HAIR = 1e-9;

/**
 * How likely each of some shifts went wrong, at least as far as it was named so, if they all go wrong as often as they do among themselves, and not as often as those of the whole ride do: a doubtful one
 * among sure ones is likely one more, a doubtful one among clean ones is likely none (expectation-maximization, Dempster, Laird and Rubin 1977).
 */
export function troubleAtOwnRate(shifts: readonly ShiftEvent[]): number[] {
  const odds = shifts.map((shift) => {
    const expected = Math.min(1 - A_HAIR, Math.max(A_HAIR, 1 - shift.expected.clean));
    return oddsOf(Math.min(1 - A_HAIR, troubleShare(shift))) / oddsOf(expected);
  });
  let rate = BEFOREHAND.trouble / BEFOREHAND.shifts;
  let shares = odds.map(() => 0);
  for (let round = 0; round < ROUNDS; round++) {
    const own = oddsOf(rate);
    shares = odds.map((one) => (own * one) / (1 + own * one));
    rate = (BEFOREHAND.trouble + shares.reduce((a, b) => a + b, 0)) / (BEFOREHAND.shifts + shifts.length);
  }
  return shares.map((share, i) => Math.max(share, shifts[i].outcome === 'clean' ? 0 : troubleShare(shifts[i])));
}

const oddsOf = (chance: number): number => chance / (1 - chance);
