import { describe, expect, it } from 'vitest';
import { unaskedMoves } from '../../../src/simulate/truth/unasked-moves.ts';
import { madeTrack } from './made-track.ts';

describe('unaskedMoves', () => {
  it('finds a move away from the commanded cog and how long it held; the return is no ghost', () => {
    const track = madeTrack(
      60,
      [[10, 5, 6]],
      [
        [11, 6],
        [30, 5],
        [34.5, 6],
      ],
      5,
    );
    expect(unaskedMoves(track)).toEqual({
      ghosts: [{ timeS: 30, fromCog: 6, toCog: 5, heldS: 4.5, towardsCommand: false }],
      belated: [],
    });
  });

  it('passes over short ones and those soon after a command', () => {
    const short = madeTrack(
      60,
      [],
      [
        [30, 4],
        [30.75, 5],
      ],
      5,
    );
    expect(unaskedMoves(short).ghosts).toEqual([]);
    const soon = madeTrack(
      60,
      [[27, 4, 5]],
      [
        [27.5, 5],
        [30, 4],
      ],
      4,
    );
    expect(unaskedMoves(soon).ghosts).toEqual([]);
  });

  it('lists a missed shift that comes by itself, over 5 s and five turns of the cranks later, as one towards the command', () => {
    const move = { timeS: 18, fromCog: 5, toCog: 6, heldS: 42, towardsCommand: true };
    const came = (rpm: number) => unaskedMoves(madeTrack(60, [[10, 5, 6]], [[18, 6]], 5, () => rpm));
    expect(came(60)).toEqual({ ghosts: [move], belated: [] });
    // eight seconds of slow legs are four turns: a late shift
    expect(came(30)).toEqual({ ghosts: [], belated: [move] });
    const soon = madeTrack(60, [[10, 5, 6]], [[14, 6]], 5, () => 90);
    expect(unaskedMoves(soon)).toEqual({ ghosts: [], belated: [] });
  });

  it('does not take the loss of the chain or its being put back for a ghost', () => {
    const track = madeTrack(
      60,
      [],
      [
        [20, -1],
        [40, 3],
      ],
      5,
    );
    expect(unaskedMoves(track)).toEqual({ ghosts: [], belated: [] });
  });
});
