import { describe, expect, it } from 'vitest';
import { judgeShifts } from '../../../src/simulate/truth/judge-shifts.ts';
import { madeTrack } from './made-track.ts';

/** At 60 rpm one second is one crank turn. */
const judge = (...args: Parameters<typeof madeTrack>) => {
  const track = madeTrack(...args);
  const recordedS = Float64Array.from(track.commands, (command) => Math.floor(command.timeS));
  return judgeShifts(track, recordedS, true);
};
const outcomes = (...args: Parameters<typeof madeTrack>): string[] => judge(...args).map((shift) => shift.outcome);

describe('judgeShifts', () => {
  it('counts crank turns from the command: clean to 1.5, late to 5, then missed', () => {
    for (const [arrivesAfter, outcome] of [
      [1, 'clean'],
      [1.5, 'clean'],
      [2, 'late'],
      [5, 'late'],
      [5.5, 'missed'],
    ] as const) {
      const [shift] = judge(40, [[10, 5, 6]], [[10 + arrivesAfter, 6]], 5);
      expect(shift).toMatchObject({ outcome, crankRevs: arrivesAfter, fromCog: 5, toCog: 6 });
    }
    expect(outcomes(40, [[10, 5, 6]], [], 5)).toEqual(['missed']);
  });

  it('does not count time without pedalling', () => {
    const resting = (t: number): number => (t >= 10.5 && t < 20.5 ? 0 : 60);
    expect(judge(40, [[10, 5, 6]], [[21.25, 6]], 5, resting)[0]).toMatchObject({ outcome: 'clean', crankRevs: 1.25 });
  });

  it('merges commands whose records are at most one whole second apart, and drops a burst that returns', () => {
    const [shift, ...others] = judge(
      40,
      [
        [10.25, 5, 6],
        [10.75, 6, 7],
        [11.5, 7, 8],
      ],
      [
        [11, 6],
        [11.75, 7],
        [12.5, 8],
      ],
      5,
    );
    expect(others).toEqual([]);
    expect(shift).toMatchObject({ fromCog: 5, toCog: 8, outcome: 'clean', crankRevs: 1, crankRevsFromFirst: 2.25 });
    expect(
      outcomes(
        40,
        [
          [10, 5, 6],
          [10.5, 6, 5],
        ],
        [],
        5,
      ),
    ).toEqual([]);
  });

  it('leaves unjudged what is followed by less than 2 s of pedalling', () => {
    const commands = [
      [10, 5, 6],
      [12, 6, 7],
    ] as const;
    expect(outcomes(40, commands, [[12.75, 7]], 5, (t) => (t > 10.5 && t < 12 ? 0 : 60))).toEqual([
      'unjudged',
      'clean',
    ]);
    expect(outcomes(14, [[13, 5, 6]], [], 5)).toEqual(['unjudged']);
  });

  it('calls a shift missed when the rider shifted again before it came', () => {
    expect(
      outcomes(
        40,
        [
          [10, 5, 6],
          [13, 6, 7],
        ],
        [
          [13.5, 6],
          [14, 7],
        ],
        5,
      ),
    ).toEqual(['missed', 'clean']);
  });

  it('calls a chain that stays beyond the commanded cog overshot, one that comes straight back not', () => {
    expect(outcomes(40, [[10, 5, 6]], [[11, 7]], 5)).toEqual(['overshot']);
    expect(
      outcomes(
        40,
        [[10, 5, 6]],
        [
          [10.5, 7],
          [11, 6],
        ],
        5,
      ),
    ).toEqual(['clean']);
  });

  it('takes a chain that falls off again within a second as not settled', () => {
    expect(
      judge(
        40,
        [[10, 5, 6]],
        [
          [11, 6],
          [11.5, 5],
          [13, 6],
        ],
        5,
      )[0],
    ).toMatchObject({ outcome: 'late', crankRevs: 3 });
  });
});
