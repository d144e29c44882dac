import { describe, expect, it } from 'vitest';
import { goesAtLast } from '../../src/shifts/ghosts/goes-at-last.ts';
import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import type { RevolutionClock } from '../../src/shifts/turns/revolution-clock.ts';

type Asked = readonly [lastTimeS: number, fromCog: number, toCog: number, outcome?: ShiftEvent['outcome']];

/** Whether a move at 40 s, after a command, is the chain's going at last; one turn of the cranks a second. */
function isAtLast(asked: readonly Asked[], commandS: number, fromCog: number, toCog: number, atS = 40): boolean {
  const shifts = asked.map(([lastTimeS, from, to, outcome = 'missed']) => ({
    ...{ lastTimeS, fromCog: from, toCog: to, outcome, direction: to > from ? 'to-larger' : 'to-smaller' },
  }));
  const clock = { at: (timeS: number) => timeS } as RevolutionClock;
  return goesAtLast(shifts as ShiftEvent[], clock)({ commandS, atS, fromCog, toCog });
}

describe('a move of the chain long after a missed shift', () => {
  it('is its going at last on the way from the old cog to the new one, not beyond either', () => {
    const missed: Asked[] = [[10, 4, 6]];
    expect(isAtLast(missed, 10, 4, 5)).toBe(true);
    expect(isAtLast(missed, 10, 4, 6)).toBe(true);
    expect(isAtLast(missed, 10, 5, 6)).toBe(true);
    expect(isAtLast(missed, 10, 4, 7)).toBe(false);
    expect(isAtLast(missed, 10, 3, 5)).toBe(false);
    expect(isAtLast(missed, 10, 5, 4)).toBe(false);
  });

  it('may begin where a row of missed shifts the same way began', () => {
    expect(
      isAtLast(
        [
          [10, 3, 4],
          [20, 4, 5],
        ],
        20,
        3,
        5,
      ),
    ).toBe(true);
    expect(
      isAtLast(
        [
          [10, 4, 3],
          [20, 3, 5],
        ],
        20,
        2,
        5,
      ),
    ).toBe(false);
    // one that came through, or the other way, ends the row
    expect(
      isAtLast(
        [
          [10, 3, 4],
          [15, 4, 5, 'clean'],
          [20, 5, 6],
        ],
        20,
        3,
        5,
      ),
    ).toBe(false);
    expect(
      isAtLast(
        [
          [10, 2, 5],
          [20, 5, 4],
        ],
        20,
        2,
        4,
      ),
    ).toBe(false);
  });

  it('is none within four turns, nor after a shift that was not missed', () => {
    expect(isAtLast([[36.5, 4, 5]], 36.5, 4, 5)).toBe(false);
    expect(isAtLast([[35.5, 4, 5]], 35.5, 4, 5)).toBe(true);
    expect(isAtLast([[10, 4, 5, 'late']], 10, 4, 5)).toBe(false);
  });

  it('is one after a click away and back at once, which is no shift, and not within four turns of that', () => {
    expect(isAtLast([[10, 4, 5]], 30, 4, 5)).toBe(true);
    expect(isAtLast([[10, 4, 5]], 37, 4, 5)).toBe(false);
    // a shift made since, whatever came of it, is the last one asked for
    expect(
      isAtLast(
        [
          [10, 4, 5],
          [20, 5, 4, 'clean'],
        ],
        30,
        4,
        5,
      ),
    ).toBe(false);
    // one made later tells nothing of this move
    expect(isAtLast([[50, 4, 5]], 30, 4, 5)).toBe(false);
  });
});
