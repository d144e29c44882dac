import { z } from 'zod';
import { errorShape } from '../shapes/error-shape.ts';
import type { AnswerShape, Route } from './define-route.ts';

const jsonSchema = (schema: z.ZodType, io: 'input' | 'output'): Record<string, unknown> => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12', io, unrepresentable: 'any' });
  return rest;
};

interface ObjectSchema {
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly required?: readonly string[];
}

function parameters(schema: z.ZodType | null, place: 'path' | 'query') {
  if (!schema) return [];
  const { properties = {}, required = [] } = jsonSchema(schema, 'input') as ObjectSchema;
  return Object.entries(properties).map(([name, property]) => ({
    name,
    in: place,
    required: place === 'path' || required.includes(name),
    schema: property,
  }));
}

function requestBody({ body, files }: Route) {
  if (body) return { required: true, content: { 'application/json': { schema: jsonSchema(body, 'input') } } };
  if (!files) return undefined;
  const schema = {
    type: 'object',
    properties: { files: { type: 'array', items: { type: 'string', contentMediaType: 'application/octet-stream' } } },
  };
  return { required: true, content: { 'multipart/form-data': { schema } } };
}

function answer({ description, schema, contentType }: AnswerShape) {
  if (schema) return { description, content: { 'application/json': { schema: jsonSchema(schema, 'output') } } };
  return contentType ? { description, content: { [contentType]: {} } } : { description };
}

/** The API as an OpenAPI 3.1 document, made from the schemas that the server checks requests with. */
export function openapiDocument(routes: readonly Route[], version: string): object {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const route of routes) {
    const path = `/api${route.path.replaceAll(/:(\w+)/g, '{$1}')}`;
    paths[path] ??= {};
    paths[path][route.method] = {
      summary: route.summary,
      parameters: [...parameters(route.params, 'path'), ...parameters(route.query, 'query')],
      requestBody: requestBody(route),
      responses: {
        ...Object.fromEntries(Object.entries(route.answers).map(([status, shape]) => [status, answer(shape)])),
        default: {
          description: 'The request was refused; the code is stable, the message is for people.',
          content: { 'application/json': { schema: jsonSchema(errorShape, 'output') } },
        },
      },
    };
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'cogwright',
      version,
      description: 'Bikes, rides, adjustments and what the rides say of the bikes.',
    },
    paths,
    components: {
      securitySchemes: { token: { type: 'http', scheme: 'bearer', description: 'Only where the server has a token.' } },
    },
    security: [{}, { token: [] }],
  };
}
