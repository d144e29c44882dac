import { describe, expect, it } from 'vitest';
import { GuessOnce } from '../../web/add-rides/guess-once.ts';
import type { DrivetrainGuess } from '../../web/api/answers.ts';

const guess = { certainty: 0.9 } as DrivetrainGuess;
const files = [new File(['a'], 'a.csv')];

describe('the guess from files', () => {
  it('is asked for once for the same files', async () => {
    let asked = 0;
    const guesses = new GuessOnce(new AbortController().signal, async () => {
      asked++;
      return guess;
    });
    expect(await guesses.of(files)).toBe(guess);
    expect(await guesses.of([...files])).toBe(guess);
    await guesses.of([new File(['b'], 'b.csv')]);
    expect(asked).toBe(2);
  });

  it('is asked for anew after a failure, but not while a try is under way', async () => {
    let asked = 0;
    const guesses = new GuessOnce(new AbortController().signal, async () => {
      if (++asked === 1) throw new Error('no answer');
      return guess;
    });
    const first = guesses.of(files);
    expect(guesses.of(files)).toBe(first);
    await expect(first).rejects.toThrow('no answer');
    expect(await guesses.of(files)).toBe(guess);
    expect(asked).toBe(2);
  });
});
