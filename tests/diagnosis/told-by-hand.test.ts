import { describe, expect, it } from 'vitest';
import { allToldByHand, toldByHand } from '../../src/diagnosis/told-by-hand.ts';

describe('the looks that tell some causes', () => {
  it('are one for each, and none where nothing is mis-set', () => {
    expect(allToldByHand(['no-fault', 'hanger-bent', 'low-limit-loose'], false)).toEqual([
      toldByHand('hanger-bent', false),
      toldByHand('low-limit-loose', false),
    ]);
  });

  it('measure a gap once, whichever way it may be off', () => {
    const [small, large] = (['pulley-gap-small', 'pulley-gap-large'] as const).map((cause) => toldByHand(cause, false));
    expect(allToldByHand(['pulley-gap-large', 'pulley-gap-small'], false)).toEqual([small]);
    expect(allToldByHand(['pulley-gap-large', 'cable-friction'], false)).toEqual([
      large,
      toldByHand('cable-friction', false),
    ]);
  });
});
