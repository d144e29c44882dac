import type { z } from 'zod';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import type { requestDetailShape } from '../shapes/error-shape.ts';

type RequestDetail = Readonly<z.infer<typeof requestDetailShape>>;

/** A request that is refused, with the status to answer it with. */
export class RequestError extends CogwrightError {
  override readonly name = 'RequestError';
  constructor(
    readonly status: number,
    readonly code: string,
    message: string,
    readonly details?: readonly RequestDetail[],
  ) {
    super(message);
  }
}

type Missing = 'bike' | 'ride' | 'adjustment' | 'event' | 'judgement' | 'upload' | 'job' | 'page';

/** There never was anything under this id. */
export const noSuch = (what: Missing): RequestError => new RequestError(404, 'not-found', `There is no such ${what}.`);

/** Where to look instead: a page that is loaded again helps only where it is the page of something that is there. */
const instead: Partial<Record<Missing, string>> = {
  bike: 'the list of bikes shows those that are here',
  ride: 'the page of its bike lists the rides that are here',
};

/** Nothing is known under this id. */
export const notFound = (what: Missing): RequestError =>
  new RequestError(
    404,
    'not-found',
    `There is no such ${what} here. It may have been removed; ${instead[what] ?? 'load the page again'}.`,
  );
