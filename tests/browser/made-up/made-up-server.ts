import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import express from 'express';
import type { BikeDetail, SheetData } from '../../../web/api/answers.ts';
import { type MadeUpBike, madeUpFleet } from './made-up-bikes.ts';

const folder = fileURLToPath(new URL('../../../dist/web', import.meta.url));

function sheetOf(detail: BikeDetail): SheetData {
  const {
    bike,
    bikeSource,
    state,
    workshopMark,
    rides,
    trend,
    lastRideAt,
    report,
    adjustmentsLog,
    pending,
    staleReason,
  } = detail;
  return {
    bike,
    bikeSource,
    generatedAt: '2026-05-04T09:00:00.000Z',
    state,
    workshopMark,
    rides,
    firstRideAt: trend[0]?.at ?? null,
    lastRideAt,
    ridesAt: trend.map(({ at }) => at),
    totals: report!.rides[0].counts,
    causes: report!.diagnosis.causes,
    causesTitle: 'Likeliest causes',
    verdict: null,
    weighed: report!.diagnosis.weighed,
    lateralOffsetMm: report!.diagnosis.lateralOffsetMm,
    suggestion: report!.diagnosis.suggestion,
    cogs: report!.cogs,
    cogsSince: null,
    skipsByCog: report!.skipsByCog ?? [],
    skipsByCogSince: null,
    lastLooks: [],
    lastAdjustments: report!.adjustments,
    adjustmentsLog,
    warnings: [],
    pending,
    staleReason,
    engineVersion: '0.1.0',
  };
}

/** The built page with an invented API behind it, for states that the real server cannot be brought into at will. */
export function serveMadeUp(
  fleet: readonly MadeUpBike[] = madeUpFleet(),
  port = 0,
): Promise<{ address: string; server: Server }> {
  const app = express();
  app.use((_, response, next) => {
    response.setHeader(
      'content-security-policy',
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; font-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
    );
    next();
  });
  const bike = (id: string) => fleet.find((one) => one.detail.id === id);
  const ride = (id: string) => fleet.flatMap((one) => one.rides).find((one) => one.detail.id === id);
  const missing = { error: { code: 'not-found', message: 'No such thing is stored here.' } };
  const answer = (response: express.Response, body: unknown): void => {
    if (body) response.json(body);
    else response.status(404).json(missing);
  };
  app.get('/api/health', (_, response) => void response.json({ ok: true, version: '0.1.0', engineVersion: '0.1.0' }));
  app.get('/api/bikes', (_, response) => void response.json({ bikes: fleet.map((one) => one.detail) }));
  app.get('/api/bikes/:id', (request, response) => answer(response, bike(request.params.id)?.detail));
  app.get('/api/bikes/:id/sheet', (request, response) => {
    const found = bike(request.params.id)?.detail;
    answer(response, found?.report && sheetOf(found));
  });
  app.get('/api/rides', (request, response) => {
    const rides = bike(String(request.query.bike))?.rides.map((one) => one.detail) ?? [];
    response.json({ rides: rides.reverse(), total: rides.length });
  });
  app.get('/api/rides/:id', (request, response) => answer(response, ride(request.params.id)?.detail));
  app.get('/api/rides/:id/columns', (request, response) => answer(response, ride(request.params.id)?.columns));
  app.get('/api/events', (_, response) => {
    response.writeHead(200, { 'content-type': 'text/event-stream' });
    response.write(': open\n\n');
  });
  app.use('/api', (_, response) => void response.status(404).json(missing));
  app.use(express.static(folder));
  app.use((_, response) => response.sendFile('index.html', { root: folder }));
  return new Promise((resolve) => {
    const server = app.listen(port, '127.0.0.1', () =>
      resolve({ address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, server }),
    );
  });
}
