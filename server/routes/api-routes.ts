import { z } from 'zod';
import { engineVersion } from '../engine.ts';
import { defineRoute, type Route } from '../http/define-route.ts';
import { openapiDocument } from '../http/openapi-document.ts';
import { healthShape } from '../shapes/health-shape.ts';
import { adjustmentRoutes } from './adjustments.ts';
import { archiveRoutes } from './archive.ts';
import { bikeRoutes } from './bikes.ts';
import { guessRoutes } from './guess.ts';
import { judgementRoutes } from './judgements.ts';
import { newsRoutes } from './news.ts';
import { rideRoutes } from './rides.ts';
import { sheetRoutes } from './sheet.ts';
import { uploadRoutes } from './uploads.ts';
import { workshopMarkRoutes } from './workshop-mark.ts';

const healthRoute = defineRoute({
  method: 'get',
  path: '/health',
  summary: 'Whether the server is well',
  answers: {
    200: {
      description: 'It is',
      schema: healthShape,
    },
  },
  handle: (_, { version }) => ({ status: 200, json: { ok: true, version, engineVersion } }),
});

const openapiRoute = defineRoute({
  method: 'get',
  path: '/openapi.json',
  summary: 'This document',
  answers: { 200: { description: 'OpenAPI 3.1', schema: z.object({ openapi: z.string() }).loose() } },
  handle: (_, { version }) => ({ status: 200, jsonText: openapiText(version) }),
});

/** Every route of the API. */
export const apiRoutes: readonly Route[] = [
  healthRoute,
  openapiRoute,
  ...bikeRoutes,
  ...workshopMarkRoutes,
  ...adjustmentRoutes,
  ...sheetRoutes,
  ...rideRoutes,
  ...judgementRoutes,
  ...uploadRoutes,
  ...guessRoutes,
  ...newsRoutes,
  ...archiveRoutes,
];

let written: string | undefined;
const openapiText = (version: string): string => {
  written ??= JSON.stringify(openapiDocument(apiRoutes, version));
  return written;
};
