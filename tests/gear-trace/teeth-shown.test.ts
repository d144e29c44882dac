import { describe, expect, it } from 'vitest';
import { teethShownWords } from '../../src/gear-trace/guess/teeth-shown.ts';

const bike = { chainrings: [34, 50], cassette: [11, 13, 15, 17] };
const words = (chainrings: (number | null)[], cassette: (number | null)[]): string =>
  teethShownWords(bike, { chainrings, cassette });

describe('the teeth that rides show', () => {
  it('are counted, and those that do not are named', () => {
    expect(words([34, 50], [11, 13, 15, 17])).toBe('all of its teeth show in the rides.');
    expect(words([], [11, 13, 15, null])).toBe('75 % of its teeth show in the rides, those of the cog of 17 do not.');
    expect(words([null, 50], [null, 13, null, 17])).toBe(
      '50 % of its teeth show in the rides, those of the ring of 34 and the cogs of 11 and 15 do not.',
    );
  });
});
