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
    expect(unaskedMoves(track)).toEqual({ ghosts: [{ timeS: 30, fromCog: 6, toCog: 5, heldS: 4.5 }], belated: [] });
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

  it('lists a shift that came after more than 5 s as belated, and no ghost', () => {
    const track = madeTrack(60, [[10, 5, 6]], [[18, 6]], 5);
    expect(unaskedMoves(track)).toEqual({
      ghosts: [],
      belated: [{ timeS: 18, fromCog: 5, toCog: 6, heldS: 42 }],
    });
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
