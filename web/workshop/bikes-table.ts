import type { BikeSummary } from '../api/answers.ts';
import type { ChartTable } from '../charts/chart-plan.ts';

type Cell = ChartTable['rows'][number][number];

/** The columns, each with what a bike has in it. */
const columns: Readonly<Record<string, (bike: BikeSummary) => Cell>> = {
  bike: ({ bike }) => bike.name,
  chainrings: ({ bike }) => bike.chainrings.join(' '),
  cassette: ({ bike }) => bike.cassette.join(' '),
  actuation: ({ bike }) => bike.actuation,
  state: ({ state }) => (state.underWay ? 'being worked through' : state.word),
  'set aside': ({ workshopMark }) => (workshopMark ? 'yes' : null),
  'set aside since': ({ workshopMark }) => workshopMark?.on ?? null,
  'set aside, note': ({ workshopMark }) => workshopMark?.note || null,
  'not up to date': ({ staleReason }) => staleReason,
  dangers: ({ state }) => state.dangers.join(' '),
  reasons: ({ state }) => state.reasons.filter((reason) => !state.dangers.includes(reason)).join(' '),
  'first step': ({ work }) => work,
  'fault likelihood': ({ state }) => state.faultProbability,
  'judged shifts': ({ state }) => state.judgedShifts,
  'trouble rate': ({ state }) => state.troubleRate,
  'low (95 %)': ({ state }) => (state.troubleRate === null ? null : state.low),
  'high (95 %)': ({ state }) => (state.troubleRate === null ? null : state.high),
  'worst cog, teeth': ({ state }) => state.worstCog?.teeth ?? null,
  'worst cog, direction': ({ state }) => state.worstCog?.direction ?? null,
  'worst cog, trouble rate': ({ state }) => state.worstCog?.troubleRate ?? null,
  'worst cog, judged shifts': ({ state }) => state.worstCog?.shifts ?? null,
  rides: ({ rides }) => rides,
  'last ride (UTC)': ({ lastRideAt }) => lastRideAt,
  address: ({ id }) => `/bikes/${id}`,
};

/** The list of bikes as a table for a spreadsheet: shares from 0 to 1, times in UTC. */
export const bikesTable = (bikes: readonly BikeSummary[]): ChartTable => ({
  columns: Object.keys(columns),
  rows: bikes.map((bike) => Object.values(columns).map((cell) => cell(bike))),
});
