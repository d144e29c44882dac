import type { Request, Response } from 'express';
import type { z } from 'zod';
import type { Services } from '../services.ts';

/** What a route answers with under one status, for the API document. */
export interface AnswerShape {
  readonly description: string;
  /** Absent: no body, or one that is no JSON. */
  readonly schema?: z.ZodType;
  /** Content type of a body that is no JSON. */
  readonly contentType?: string;
}

/** What a handler gives back: JSON, or JSON that is already text, or nothing; `sent` where it wrote the response itself. */
export type Answer =
  | { readonly status: number; readonly json: unknown }
  | { readonly status: number; readonly jsonText: string }
  | { readonly status: 204 }
  | typeof sent;

/** The answer of a handler that wrote the response itself. */
export const sent = 'sent' as const;

/** A request after its parameters, query and body were checked. */
export interface Checked<Params, Query, Body> {
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  readonly request: Request;
  readonly response: Response;
}

/** One route: its shapes stand in one place, for the check of every request and for the API document. */
export interface Route {
  readonly method: 'get' | 'post' | 'put' | 'delete';
  /** Under `/api`, with `:name` for parameters. */
  readonly path: string;
  readonly summary: string;
  readonly params: z.ZodType | null;
  readonly query: z.ZodType | null;
  readonly body: z.ZodType | null;
  /** True where the body is `multipart/form-data` with files. */
  readonly files: boolean;
  readonly answers: Readonly<Record<number, AnswerShape>>;
  handle(checked: Checked<unknown, unknown, unknown>, services: Services): Answer | Promise<Answer>;
}

interface RouteParts<Params, Query, Body> {
  readonly method: Route['method'];
  readonly path: string;
  readonly summary: string;
  readonly params?: z.ZodType<Params>;
  readonly query?: z.ZodType<Query>;
  readonly body?: z.ZodType<Body>;
  readonly files?: boolean;
  readonly answers: Route['answers'];
  handle(checked: Checked<Params, Query, Body>, services: Services): Answer | Promise<Answer>;
}

/** Ties the handler's types to the schemas. */
export const defineRoute = <Params = undefined, Query = undefined, Body = undefined>(
  parts: RouteParts<Params, Query, Body>,
): Route => ({
  params: null,
  query: null,
  body: null,
  files: false,
  ...parts,
  handle: parts.handle as Route['handle'],
});
