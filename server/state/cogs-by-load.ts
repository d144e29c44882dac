import { median } from 'd3-array';
import { tallyCogs } from '../../src/cogs/tally-cogs.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { cogShiftsReport } from '../../src/report/cog-report.ts';
import type { CogReport } from '../../src/report/report-schema.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';

/** Tallies of the shifts made under one kind of load. */
export interface LoadTally {
  readonly load: 'soft' | 'firm' | 'unknown';
  readonly cogs: readonly CogReport[];
}

/** Tallies by load, and the torque that parts `soft` from `firm`: null where no shift has a torque. */
export interface LoadTallies {
  readonly loadSplitNm: number | null;
  readonly perLoad: readonly LoadTally[];
}

/**
 * The per-cog tallies, opened by the crank torque of each shift. The bike's own median parts soft from firm, so that
 * both sides hold as many shifts; what is firm for one rider is soft for another. A kind of load without shifts is
 * left out; events other than shifts are not counted here.
 */
export function cogsByLoad(rides: readonly RideEvents[], bike: Bike): LoadTallies {
  const judged = rides.flatMap((ride) => ride.shifts.filter(({ outcome }) => outcome !== 'unjudged'));
  const split = median(judged, ({ torqueNm }) => torqueNm) ?? Number.NaN;
  const loadOf = (torqueNm: number): LoadTally['load'] =>
    Number.isFinite(torqueNm) ? (torqueNm < split ? 'soft' : 'firm') : 'unknown';
  const perLoad = (['soft', 'firm', 'unknown'] as const).flatMap((load) => {
    const shifts = judged.filter(({ torqueNm }) => loadOf(torqueNm) === load);
    if (shifts.length === 0) return [];
    const events = { shifts, ghostShifts: [], chainDrops: [], skips: [], pedallingSByCog: new Float64Array() };
    return [{ load, cogs: tallyCogs([events], bike.cassette.length).map((tally) => cogShiftsReport(tally, bike)) }];
  });
  return { loadSplitNm: Number.isNaN(split) ? null : Math.round(split * 10) / 10, perLoad };
}
