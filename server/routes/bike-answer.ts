import type { z } from 'zod';
import { counted } from '../../src/numeric/counted.ts';
import { nothingYet } from '../../src/report/state/bike-state.ts';
import { stateOrder } from '../../src/report/state/state-word.ts';
import { troubleToOrderBy } from '../../src/report/state/trouble-to-order-by.ts';
import { notFound } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import type { bikeSummaryShape } from '../shapes/bike-shapes.ts';
import { listAdjustments, listMarks, withVersion } from '../store/adjustment-store.ts';
import { bikeAsLogged } from '../store/bike-as-logged.ts';
import { findBike, listBikes, type StoredBike } from '../store/bike-store.ts';
import { findReport, listSummaries } from '../store/report-store.ts';
import { countRides } from '../store/ride-store.ts';
import { versionOf } from '../store/version-of.ts';
import { type BikeBacklog, bikeBacklogs } from '../store/work-store.ts';
import { listWorkshopMarks } from '../store/workshop-mark-store.ts';
import { pendingOf } from '../work/work-queue.ts';
import { clockedIso } from './clocked-iso.ts';

/** A bike as the list of bikes shows it. */
export type BikeSummary = z.input<typeof bikeSummaryShape>;

interface Known {
  readonly rides: ReturnType<typeof countRides>;
  readonly marks: ReturnType<typeof listMarks>;
  readonly workshopMarks: ReturnType<typeof listWorkshopMarks>;
  readonly backlog: BikeBacklog | undefined;
  readonly summary: string | undefined;
}

/** Names as people count them: bike 2 before bike 10. */
const byName = new Intl.Collator('en', { numeric: true });

/** Every bike, the one that needs a mechanic most first (`moreUrgent`); where none does more than another, in order of name. */
export function bikeSummaries({ sql }: Pick<Services, 'sql'>): BikeSummary[] {
  const rides = countRides(sql);
  const marks = listMarks(sql);
  const workshopMarks = listWorkshopMarks(sql);
  const backlogs = new Map(bikeBacklogs(sql).map((backlog) => [backlog.bikeId, backlog]));
  const summaries = listSummaries(sql);
  return listBikes(sql)
    .map((stored) =>
      summaryOf(stored, {
        rides,
        marks,
        workshopMarks,
        backlog: backlogs.get(stored.id),
        summary: summaries.get(stored.id)?.summary,
      }),
    )
    .sort((a, b) => moreUrgent(a, b) || byName.compare(a.bike.name, b.bike.name));
}

/**
 * Which of two bikes is to be seen to first, below 0 for the first: the more can hurt its rider, then the one that its keeper set aside for the
 * workshop, then the one that needs a hand more.
 */
export const moreUrgent = (a: Urgent, b: Urgent): number =>
  moreDangerous(a.state, b.state) ||
  Number(b.workshopMark !== null) - Number(a.workshopMark !== null) ||
  needier(a.state, b.state);

interface Urgent {
  readonly state: State;
  readonly workshopMark: BikeSummary['workshopMark'];
}

const moreDangerous = (a: State, b: State): number =>
  b.dangers.length - a.dangers.length || Number(b.chainsLost > 0) - Number(a.chainsLost > 0);

type State = Pick<BikeSummary['state'], 'word' | 'dangers' | 'faultProbability' | 'chainsLost'> &
  Parameters<typeof troubleToOrderBy>[0];

/**
 * Which of two bikes needs a hand more, below 0 for the first: the more can hurt its rider, of those alike in that one whose chain came off, then by state, then by how likely a fault is in whole
 * per cent, then by how often shifts surely go wrong, of a worn bike with every skip as one more such shift. Finer than that no likelihood is known.
 */
export function needier(a: State, b: State): number {
  const percent = ({ faultProbability }: State): number => Math.round(100 * (faultProbability ?? 0));
  return (
    moreDangerous(a, b) ||
    stateOrder.indexOf(a.word) - stateOrder.indexOf(b.word) ||
    percent(b) - percent(a) ||
    (troubleToOrderBy(b) ?? -1) - (troubleToOrderBy(a) ?? -1)
  );
}

/** What is kept of a bike's report for the list; one that an older version kept lacks the work. */
type KeptSummary = Pick<BikeSummary, 'state' | 'trend'> & Partial<Pick<BikeSummary, 'work' | 'workPart'>>;

/**
 * The first step of what to do, and its part. Where nothing is wrong there is none to name, whatever the report says of what to do should it begin;
 * nor is there while the report is being worked out anew, which may change it.
 */
export function workOf(
  kept: Pick<KeptSummary, 'work' | 'workPart'> & { readonly state: Pick<BikeSummary['state'], 'word'> },
  pending: number,
): Pick<BikeSummary, 'work' | 'workPart'> {
  const wanted = pending === 0 && (kept.state.word === 'service' || kept.state.word === 'watch');
  return wanted && kept.work ? { work: kept.work, workPart: kept.workPart ?? null } : { work: null, workPart: null };
}

function summaryOf(stored: StoredBike, { rides, marks, workshopMarks, backlog, summary }: Known): BikeSummary {
  const counts = rides.get(stored.id);
  const ownMarks = marks.get(stored.id) ?? [];
  const kept = summary === undefined ? null : (JSON.parse(summary) as KeptSummary | null);
  const state = stateOf(kept, backlog);
  return {
    id: stored.id,
    bike: bikeAsLogged(stored, ownMarks).bike,
    version: versionOf(stored.bike),
    bikeSource: stored.source,
    sample: stored.sample,
    workshopMark: workshopMarks.get(stored.id) ?? null,
    rides: counts?.rides ?? 0,
    lastRideAt: clockedIso(counts?.lastMs ?? 0),
    adjustments: ownMarks.length,
    state,
    trend: kept?.trend ?? [],
    ...(kept ? workOf(kept, backlog ? pendingOf(backlog) : 0) : { work: null, workPart: null }),
    adjustmentMarks: ownMarks,
    ...pendingAndWhy(backlog, kept),
  };
}

/** Whether no ride was in the report that a summary was kept of, or there was none. */
const judgedNone = (summary: Pick<BikeSummary, 'trend'> | null): boolean => (summary?.trend ?? []).length === 0;

/**
 * The state in a kept summary, or that its rides are still being worked through where there is no verdict on any yet. A summary
 * that an older version kept lacks what was added since.
 */
export function stateOf(
  summary: Pick<BikeSummary, 'state' | 'trend'> | null,
  backlog: BikeBacklog | undefined,
): BikeSummary['state'] {
  const noneYet = { ...nothingYet, reasons: [...nothingYet.reasons], dangers: [], cautionsSaid: [] };
  if (judgedNone(summary) && backlog && backlog.rides > 0 && pendingOf(backlog) > 0)
    return { ...noneYet, underWay: true, reasons: ['Its rides are still being worked through.'] };
  return { ...noneYet, ...summary?.state };
}

/** How much is still to be worked out of a bike before what is shown of it is up to date, and why. */
export const pendingAndWhy = (
  backlog: BikeBacklog | undefined,
  summary: Pick<BikeSummary, 'trend'> | null,
): Pick<BikeSummary, 'pending' | 'staleReason'> => ({
  pending: backlog ? pendingOf(backlog) : 0,
  staleReason: backlog ? staleReason(backlog, judgedNone(summary)) : null,
});

/** Why what is shown of a bike is not all there is, as a sentence; null where it is. `first`: whether there was no verdict before. */
export function staleReason(backlog: BikeBacklog, first: boolean): string | null {
  const { queued, rides } = backlog;
  const again = first ? '' : ' again';
  if (queued > 0) return `${queued} of ${counted(rides, 'ride')} ${queued === 1 ? 'is' : 'are'} still to be analysed.`;
  if (pendingOf(backlog) > 0) return `The report is being worked out${again}.`;
  return backlog.failure === null
    ? null
    : `The report could not be worked out${again} because of a fault in this program.`;
}

/** One bike with its report, as JSON text. `wholeReport`: the report with every list, in place of the one in short. */
export function bikeDetailText({ sql }: Pick<Services, 'sql'>, id: string, wholeReport?: string): string {
  const stored = findBike(sql, id);
  if (!stored) throw notFound('bike');
  const report = findReport(sql, id);
  const summary = summaryOf(stored, {
    rides: countRides(sql, id),
    marks: listMarks(sql, id),
    workshopMarks: listWorkshopMarks(sql, id),
    backlog: bikeBacklogs(sql, id)[0],
    summary: report?.summary,
  });
  const detail =
    report && report.detail !== 'null'
      ? report.detail
      : '{"loadSplitNm":null,"perLoad":[],"perPeriod":[],"cogsSince":null}';
  const rest = {
    adjustmentsLog: listAdjustments(sql, id).map(withVersion),
    engineVersion: report?.engineVersion ?? null,
  };
  const inner = (text: string): string => text.slice(1, -1);
  return `{${inner(JSON.stringify(summary))},${inner(JSON.stringify(rest))},${inner(detail)},"report":${wholeReport ?? report?.report ?? 'null'}}`;
}
