import { countEvents } from '../../src/report/ride-counts.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { type ToldEvent, toldReport } from '../../src/report/told-events.ts';
import { eventKeys, keyMoment } from './event-key.ts';
import { type Judged, judgeFound } from './judge-events.ts';

type ToldLists = Pick<RideReport, 'chainDrops' | 'skips'>;

/** The lost chains and skips that the rider told of and the analysis does not have. `report` is the engine's own. */
export function toldLists(report: RideReport, judged: Judged): ToldLists {
  const found = new Set(eventKeys(report));
  const told = [...judged].flatMap(([key, { verdict, side }]): ToldEvent[] => {
    if (verdict !== 'told' || found.has(key)) return [];
    const { kind, ms } = keyMoment(key);
    const at = new Date(ms).toISOString();
    return kind === 'skip' ? [{ kind, at }] : kind === 'drop' ? [{ kind, at, side: side ?? 'unknown' }] : [];
  });
  return toldReport(report, told);
}

/** A ride's report with more lost chains and skips, in order of time, and counts that agree. */
export function withTold<Report extends RideReport>(
  report: Report,
  told: Pick<Report, 'chainDrops' | 'skips'>,
): Report {
  const inOrder = <Event extends { readonly at: string }>(list: readonly Event[]): Event[] =>
    [...list].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const lists = {
    chainDrops: inOrder([...report.chainDrops, ...told.chainDrops]),
    skips: inOrder([...report.skips, ...told.skips]),
  };
  return { ...report, ...lists, counts: countEvents({ ...report, ...lists }) };
}

/** A ride's report as the rider's judgements leave it, with what the rider told besides. */
export function judgeRideReport(report: RideReport, judged: Judged): RideReport {
  return judged.size === 0 ? report : withTold(judgeFound(report, judged), toldLists(report, judged));
}
