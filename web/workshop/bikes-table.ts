import type { BikeSummary } from '../api/answers.ts';
import type { ChartTable } from '../charts/chart-plan.ts';

/** The list of bikes as a table for a spreadsheet: shares from 0 to 1, times in UTC. */
export function bikesTable(bikes: readonly BikeSummary[]): ChartTable {
  return {
    columns: [
      'bike',
      'chainrings',
      'cassette',
      'actuation',
      'state',
      'not up to date',
      'dangers',
      'reasons',
      'first step',
      'fault likelihood',
      'judged shifts',
      'trouble rate',
      'low (95 %)',
      'high (95 %)',
      'worst cog, teeth',
      'worst cog, direction',
      'worst cog, trouble rate',
      'worst cog, judged shifts',
      'rides',
      'last ride (UTC)',
      'address',
    ],
    rows: bikes.map(({ id, bike, state, staleReason, rides, lastRideAt, work }) => [
      bike.name,
      bike.chainrings.join(' '),
      bike.cassette.join(' '),
      bike.actuation,
      state.underWay ? 'being worked through' : state.word,
      staleReason,
      state.dangers.join(' '),
      state.reasons.filter((reason) => !state.dangers.includes(reason)).join(' '),
      work,
      state.faultProbability,
      state.judgedShifts,
      state.troubleRate,
      state.troubleRate === null ? null : state.low,
      state.troubleRate === null ? null : state.high,
      state.worstCog?.teeth ?? null,
      state.worstCog?.direction ?? null,
      state.worstCog?.troubleRate ?? null,
      state.worstCog?.shifts ?? null,
      rides,
      lastRideAt,
      `/bikes/${id}`,
    ]),
  };
}
