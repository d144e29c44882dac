import { RequestError } from '../http/request-error.ts';

/** Lets so many senders of files in at once, and no more. */
export class UploadGate {
  #inside = 0;

  constructor(readonly most: number) {}

  async through<Result>(work: () => Promise<Result>): Promise<Result> {
    if (this.#inside >= this.most)
      throw new RequestError(503, 'busy', 'Too many files are being sent at once. Try again in a moment.');
    this.#inside++;
    try {
      return await work();
    } finally {
      this.#inside--;
    }
  }
}
