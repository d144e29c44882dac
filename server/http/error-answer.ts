import type { ErrorRequestHandler } from 'express';
import type { Logger } from 'pino';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { storageFault } from '../data-folder/storage-fault.ts';
import { WorkFailed } from '../work/worker-pool.ts';
import { RequestError } from './request-error.ts';

const storageWords = {
  'disk-full': 'The disk is full. Free some space and try again; what was stored before is safe.',
  'read-only': 'The data folder cannot be written to. Nothing was changed. Make it writable, then try again.',
} as const;

/** The refusal that an error of the disk becomes; null for another error. */
export function storageRefusal(error: unknown): RequestError | null {
  const fault = storageFault(error);
  return fault && new RequestError(507, fault, storageWords[fault]);
}

/** The refusal that work which was stopped becomes; null where it broke off, which is a fault of the program. */
function workRefusal({ code }: WorkFailed): RequestError | null {
  switch (code) {
    case 'stopped':
      return new RequestError(503, code, 'The server is stopping. Ask again when it runs.');
    case 'took-too-long':
      return new RequestError(503, code, 'This took too long and was stopped. Ask for less at once.');
    case 'out-of-memory':
      return new RequestError(503, code, 'This needs more memory than one request may have. Ask for less at once.');
    case 'broke-off':
      return null;
  }
}

/** Answers errors as `{ error: { code, message, details } }`. What is not foreseen is logged and told as `internal` only. */
export function errorAnswer(log: Logger): ErrorRequestHandler {
  return (error, request, response, next) => {
    // Who asked has gone in the middle of the answer: nothing went wrong here.
    if ((error as { code?: unknown } | null)?.code === 'ERR_STREAM_PREMATURE_CLOSE') return;
    const refusal = refusalOf(error);
    if (!refusal) log.error({ err: error, requestId: response.locals.requestId }, 'request failed');
    else response.locals.code = refusal.code;
    if (response.headersSent) {
      next(error);
      return;
    }
    const { status, code, message, details } =
      refusal ?? new RequestError(500, 'internal', 'Something went wrong in the server. Its log says more.');
    // A body that is still coming in will not be read: the connection cannot be used again.
    if (!request.complete) response.set('connection', 'close');
    response.status(status).set('cache-control', 'no-store').json({ error: { code, message, details } });
  };
}

function refusalOf(error: unknown): RequestError | null {
  if (error instanceof RequestError) return error;
  if (error instanceof CogwrightError) return new RequestError(422, error.code, error.message);
  if (error instanceof WorkFailed) return workRefusal(error);
  const type = (error as { type?: unknown } | null)?.type;
  if (type === 'entity.too.large') return new RequestError(413, 'too-large', 'The body is larger than 256 kB.');
  if (type === 'entity.parse.failed') return new RequestError(400, 'bad-json', 'The body is no JSON object or list.');
  if (typeof type === 'string' && /^(encoding|charset|entity|request)\./.test(type))
    return new RequestError(400, 'invalid-request', 'The body cannot be read.');
  if (error instanceof URIError) return new RequestError(400, 'invalid-request', 'The address is badly written.');
  return storageRefusal(error);
}
