import { z } from 'zod';
import type { Report } from '../../src/report/report-schema.ts';
import { sumCounts } from '../../src/report/ride-counts.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { whichCauses } from '../../src/report/which-causes.ts';
import { explainedSentence } from '../../src/report/words/verdict-words.ts';
import { titleOfCausesNow, wasOnce } from '../../src/report/words/what-it-was.ts';
import { defineRoute } from '../http/define-route.ts';
import { type bikeDetailShape, sheetShape } from '../shapes/bike-shapes.ts';
import { listAdjustments } from '../store/adjustment-store.ts';
import { bikeAsLogged } from '../store/bike-as-logged.ts';
import { idSchema } from '../store/new-id.ts';
import { findReport } from '../store/report-store.ts';
import { bikeBacklogs } from '../store/work-store.ts';
import { type BikeSummary, pendingAndWhy, stateOf } from './bike-answer.ts';
import { needBike } from './bikes.ts';
import { clockedIso } from './clocked-iso.ts';

const LIKELIEST = 5;
const NEWEST = 10;

/** The data of a bike's service sheet. */
export const sheetRoutes = [
  defineRoute({
    method: 'get',
    path: '/bikes/:id/sheet',
    summary: 'What a workshop needs of a bike, for one printed page',
    params: z.object({ id: idSchema }),
    answers: { 200: { description: 'The sheet', schema: sheetShape } },
    handle: ({ params: { id } }, services) => {
      const { sql } = services;
      const log = listAdjustments(sql, id);
      const stored = bikeAsLogged(needBike(services, id), log);
      const kept = findReport(sql, id);
      const report = kept ? (JSON.parse(kept.report) as Report | null) : null;
      const detail = kept
        ? (JSON.parse(kept.detail) as Pick<z.input<typeof bikeDetailShape>, 'cogsSince'> | null)
        : null;
      const summary = kept ? (JSON.parse(kept.summary) as Pick<BikeSummary, 'state' | 'trend'> | null) : null;
      const backlog = bikeBacklogs(sql, id)[0];
      const likely = report && whichCauses(report.diagnosis).now;
      const rides = report ? ridesThatCount(report) : [];
      const starts = rides.map(({ start }) => clockedIso(Date.parse(start))).filter((at) => at !== null);
      const state = stateOf(summary, backlog);
      const json: z.input<typeof sheetShape> = {
        bike: stored.bike,
        bikeSource: stored.source,
        generatedAt: new Date().toISOString(),
        state,
        rides: rides.length,
        firstRideAt: starts[0] ?? null,
        lastRideAt: starts.at(-1) ?? null,
        ridesAt: starts,
        totals: sumCounts(rides),
        causes: likely?.causes.slice(0, LIKELIEST) ?? [],
        causesTitle: report ? titleOfCausesNow(report, 'Likeliest causes') : '',
        verdict: report && wasOnce(report) ? explainedSentence(report) : null,
        weighed: likely?.weighed ?? null,
        lateralOffsetMm: report?.diagnosis.lateralOffsetMm ?? null,
        suggestion: report?.diagnosis.suggestion ?? null,
        cogs: report?.cogs ?? [],
        cogsSince: detail?.cogsSince ?? null,
        lastAdjustments: report?.adjustments.slice(-NEWEST).reverse() ?? [],
        lastLooks: report?.looks?.slice(-NEWEST).reverse() ?? [],
        adjustmentsLog: log.slice(-NEWEST).reverse(),
        warnings: [...new Set(rides.flatMap(({ warnings }) => warnings.map(({ message }) => message)))],
        ...pendingAndWhy(backlog, summary),
        engineVersion: kept?.engineVersion ?? null,
      };
      return { status: 200, json };
    },
  }),
];
