import type { DrivetrainGuess } from '../api/answers.ts';
import { requestGuess } from '../api/uploads.ts';

/** So many files are read for the guess; the others are read when they are worked through. */
const READ_FOR_GUESS = 6;

/** Reads the drivetrain off files, and asks again only when other files are chosen or the last try failed: the next may not. */
export class GuessOnce {
  #asked: AbortController | null = null;
  #files: readonly File[] = [];
  #answer: Promise<DrivetrainGuess> | null = null;

  constructor(
    private readonly signal: AbortSignal,
    private readonly ask = requestGuess,
  ) {}

  of(files: readonly File[]): Promise<DrivetrainGuess> {
    const same = files.length === this.#files.length && files.every((file, i) => file === this.#files[i]);
    if (this.#answer && same) return this.#answer;
    this.#asked?.abort();
    this.#asked = new AbortController();
    this.#files = files;
    const answer = this.ask(files.slice(0, READ_FOR_GUESS), AbortSignal.any([this.signal, this.#asked.signal]));
    this.#answer = answer;
    answer.catch(() => {
      if (this.#answer === answer) this.#answer = null;
    });
    return answer;
  }
}
