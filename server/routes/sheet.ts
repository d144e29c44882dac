import { z } from 'zod';
import type { Report } from '../../src/report/report-schema.ts';
import { sumCounts } from '../../src/report/ride-counts.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { whichCauses } from '../../src/report/which-causes.ts';
import { explainedSentence } from '../../src/report/words/verdict-words.ts';
import { titleOfCausesNow, wasOnce } from '../../src/report/words/what-it-was.ts';
import { defineRoute } from '../http/define-route.ts';
import type { Services } from '../services.ts';
import { sheetShape } from '../shapes/bike-shapes.ts';
import { listAdjustments } from '../store/adjustment-store.ts';
import { bikeAsLogged } from '../store/bike-as-logged.ts';
import { idSchema } from '../store/new-id.ts';
import { findReport } from '../store/report-store.ts';
import { bikeBacklogs } from '../store/work-store.ts';
import { listWorkshopMarks } from '../store/workshop-mark-store.ts';
import { type BikeSummary, pendingAndWhy, stateOf } from './bike-answer.ts';
import { needBike } from './bikes.ts';
import { clockedIso } from './clocked-iso.ts';

/** So many of the likeliest causes stand on the sheet, and so many of the newest entries of the log. */
const LIKELIEST = 5;
const NEWEST = 10;

type Sheet = z.input<typeof sheetShape>;

/** The data of a bike's service sheet. */
export const sheetRoutes = [
  defineRoute({
    method: 'get',
    path: '/bikes/:id/sheet',
    summary: 'What a workshop needs of a bike, for one printed page',
    params: z.object({ id: idSchema }),
    answers: { 200: { description: 'The sheet', schema: sheetShape } },
    handle: ({ params: { id } }, services) => ({ status: 200, json: sheetOf(services, id) }),
  }),
];

function sheetOf(services: Services, id: string): Sheet {
  const { sql } = services;
  const log = listAdjustments(sql, id);
  const stored = bikeAsLogged(needBike(services, id), log);
  const kept = findReport(sql, id);
  const report = kept ? (JSON.parse(kept.report) as Report | null) : null;
  const detail = kept
    ? (JSON.parse(kept.detail) as Partial<Pick<Sheet, 'cogsSince' | 'skipsByCogSince'>> | null)
    : null;
  const summary = kept ? (JSON.parse(kept.summary) as Pick<BikeSummary, 'state' | 'trend'> | null) : null;
  const backlog = bikeBacklogs(sql, id)[0];
  return {
    bike: stored.bike,
    bikeSource: stored.source,
    generatedAt: new Date().toISOString(),
    state: stateOf(summary, backlog),
    workshopMark: listWorkshopMarks(sql, id).get(id) ?? null,
    ...ridesOnSheet(report),
    ...verdictOnSheet(report),
    cogs: report?.cogs ?? [],
    cogsSince: detail?.cogsSince ?? null,
    skipsByCog: report?.skipsByCog ?? [],
    skipsByCogSince: detail?.skipsByCogSince ?? null,
    lastAdjustments: report?.adjustments.slice(-NEWEST).reverse() ?? [],
    lastLooks: report?.looks?.slice(-NEWEST).reverse() ?? [],
    adjustmentsLog: log.slice(-NEWEST).reverse(),
    ...pendingAndWhy(backlog, summary),
    engineVersion: kept?.engineVersion ?? null,
  };
}

function ridesOnSheet(
  report: Report | null,
): Pick<Sheet, 'rides' | 'firstRideAt' | 'lastRideAt' | 'ridesAt' | 'totals' | 'warnings'> {
  const rides = report ? ridesThatCount(report) : [];
  const starts = rides.map(({ start }) => clockedIso(Date.parse(start))).filter((at) => at !== null);
  return {
    rides: rides.length,
    firstRideAt: starts[0] ?? null,
    lastRideAt: starts.at(-1) ?? null,
    ridesAt: starts,
    totals: sumCounts(rides),
    warnings: [...new Set(rides.flatMap(({ warnings }) => warnings.map(({ message }) => message)))],
  };
}

function verdictOnSheet(
  report: Report | null,
): Pick<Sheet, 'causes' | 'causesTitle' | 'verdict' | 'weighed' | 'lateralOffsetMm' | 'suggestion'> {
  if (!report)
    return { causes: [], causesTitle: '', verdict: null, weighed: null, lateralOffsetMm: null, suggestion: null };
  const { causes, weighed } = whichCauses(report.diagnosis).now;
  return {
    causes: causes.slice(0, LIKELIEST),
    causesTitle: titleOfCausesNow(report, 'Likeliest causes'),
    verdict: wasOnce(report) ? explainedSentence(report) : null,
    weighed,
    lateralOffsetMm: report.diagnosis.lateralOffsetMm,
    suggestion: report.diagnosis.suggestion,
  };
}
