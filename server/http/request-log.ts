import type { RequestHandler } from 'express';
import type { Logger } from 'pino';

/**
 * One line a request: which route, how it ended, how long it took. The route as it is declared, not the address that
 * was asked for: queries hold tokens, and event keys hold moments of a ride.
 */
export function requestLog(log: Logger): RequestHandler {
  let count = 0;
  return (request, response, next) => {
    const start = performance.now();
    const requestId = ++count;
    response.locals.requestId = requestId;
    response.on('close', () => {
      log.info(
        {
          requestId,
          method: request.method,
          route: response.locals.route ?? (request.path.startsWith('/api/') ? '/api/?' : 'page'),
          ...(typeof request.params?.id === 'string' && { id: request.params.id.slice(0, 64) }),
          status: response.statusCode,
          ...(response.locals.code && { code: response.locals.code }),
          ...(!response.writableFinished && { cutOff: true }),
          ms: Math.round((performance.now() - start) * 10) / 10,
        },
        'request',
      );
    });
    next();
  };
}
