import { type Request, Router } from 'express';
import { z } from 'zod';
import { schemaIssueWords } from '../../src/errors/schema-issue-words.ts';
import type { Services } from '../services.ts';
import { idSchema } from '../store/new-id.ts';
import type { Answer, Checked, Route } from './define-route.ts';
import { noSuch, RequestError } from './request-error.ts';

const noQuery = z.strictObject({});

/** A router that checks every request against its route's schemas before the handler sees it. */
export function mountRoutes(routes: readonly Route[], services: Services): Router {
  const router = Router({ caseSensitive: true, strict: true });
  for (const route of routes) {
    router[route.method](route.path, async (request, response) => {
      response.locals.route = `${request.baseUrl}${route.path}`;
      if (route.body && !request.is('application/json'))
        throw new RequestError(415, 'wrong-type', 'Send the body as application/json.');
      if (route.files && !request.is('multipart/form-data'))
        throw new RequestError(415, 'wrong-type', 'Send the files as multipart/form-data.');
      const checked: Checked<unknown, unknown, unknown> = {
        params: check('address', route.params, knownIds(route.path, request.params)),
        query: check('query', route.query ?? noQuery, request.query),
        body: check('body', route.body, request.body),
        request,
        response,
      };
      const answer: Answer = await route.handle(checked, services);
      if (answer === 'sent') return;
      response.status(answer.status).set('cache-control', 'no-store');
      if ('jsonText' in answer) response.type('application/json').send(answer.jsonText);
      else if ('json' in answer) response.json(answer.json);
      else response.end();
    });
  }
  refuseOtherMethods(router, routes);
  return router;
}

/** Answers 405 where an address is known but not with the method that was used. Comes after all routes, so only those reach it. */
function refuseOtherMethods(router: Router, routes: readonly Route[]): void {
  for (const path of new Set(routes.map((route) => route.path))) {
    const methods = routes.filter((route) => route.path === path).flatMap(methodsOf);
    router.all(path, (request, response) => {
      response.locals.route = `${request.baseUrl}${path}`;
      response.set('allow', methods.join(', '));
      if (request.method === 'OPTIONS') {
        response.status(204).end();
        return;
      }
      const message = `This address does not take ${request.method}. It takes ${methods.join(', ')}.`;
      throw new RequestError(405, 'wrong-method', message);
    });
  }
}

/** What reads can also be asked for its headers alone. */
const methodsOf = ({ method }: Route): string[] => (method === 'get' ? ['GET', 'HEAD'] : [method.toUpperCase()]);

/** What stands in an address under each of these names, by its id. */
const namedByIds = { bikes: 'bike', rides: 'ride', uploads: 'upload', adjustments: 'adjustment' } as const;

/** The parameters of an address. One that is no id is the id of nothing: whoever asks for it is told so, and not how ids are written. */
function knownIds(path: string, params: Request['params']): Request['params'] {
  for (const [, among, name] of path.matchAll(/([^/]+)\/:([^/]+)/g)) {
    const what = namedByIds[among as keyof typeof namedByIds];
    if (what && !idSchema.safeParse(params[name]).success) throw noSuch(what);
  }
  return params;
}

function check(part: 'address' | 'query' | 'body', schema: z.ZodType | null, value: unknown): unknown {
  if (!schema) return undefined;
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const known = schema instanceof z.ZodObject ? Object.keys(schema.shape) : [];
  const details = result.error.issues.map((issue) => {
    const { found, allowed } = schemaIssueWords(issue, value, known);
    return { path: issue.path.join('.'), message: `${found}: ${allowed}` };
  });
  const [{ path, message }] = details;
  throw new RequestError(
    400,
    'invalid-request',
    path ? `In the ${part}, "${path}" ${message}.` : `The ${part} ${message}.`,
    details,
  );
}
