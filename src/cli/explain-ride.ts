import { sum } from 'd3-array';
import type { AnalysedRide } from '../analyse.ts';
import { percent } from '../numeric/percent.ts';
import { dropSignsReport } from '../report/drop-signs-report.ts';
import { momentIso } from '../report/moment-iso.ts';
import { dropReasons } from '../report/words/drop-reasons.ts';
import { sure } from '../report/words/number-words.ts';
import { sinceStart } from '../report/words/ride-time-words.ts';

/** What each stage made of one ride, a line a stage, for `analyse --verbose`: numbers to follow a verdict back by. */
export function explainRide({ log, trace, events, sensorLagS }: AnalysedRide): string[] {
  const { model } = trace;
  const records = log.timeS.length;
  const known = sum(trace.cog, (cog) => (cog >= 0 ? 1 : 0));
  const judged = events.shifts.filter(({ outcome }) => outcome !== 'unjudged');
  const doubtful = judged.filter(({ confidence }) => confidence < 0.8).length;
  const count = (outcome: string): number => events.shifts.filter((shift) => shift.outcome === outcome).length;
  const gears = log.gearRecords;
  return [
    `${log.file}`,
    `  read: ${records} records of ${log.format.toUpperCase()}, speed from ${log.speedSource}, ${gears.timeS.length} gear records${gears.timeS.length > 0 && gears.wholeSeconds ? ' in whole seconds' : ''}, ${log.warnings.length} warnings`,
    model
      ? `  gear trace: evidence ${trace.evidence}, rollout ${trace.rolloutMm.toFixed(0)} mm, ${lagWords(model.speedLagS)}, ratio spread ${(100 * model.noise.relative).toFixed(1)} %, cog known in ${percent(known / Math.max(1, records))} of the records`
      : `  gear trace: none, evidence ${trace.evidence} (${trace.warnings.map(({ code }) => code).join(', ') || 'no reason noted'})`,
    `  shifts: ${events.shifts.length}, of them judged ${judged.length}: ${count('clean')} clean, ${count('late')} late, ${count('missed')} missed, ${count('overshot')} overshot; ${doubtful} with under 80 % confidence${Number.isNaN(sensorLagS) ? '' : `; sensors ${sensorLagS.toFixed(2)} s behind the gear records`}`,
    `  unasked: ${events.ghostShifts.length} ghost shifts, ${events.chainDrops.length} chain drops, ${events.skips.length} skips`,
    ...events.chainDrops.map(({ timeS, confidence, signs = [] }) =>
      [
        `    chain drop ${sinceStart(momentIso(log.startMs, 0), momentIso(log.startMs, timeS))} into the ride (${sure(confidence)}).`,
        ...dropReasons(dropSignsReport(signs)),
      ].join(' '),
    ),
  ];
}

/** Which of the two sensors follows the other. */
function lagWords(speedLagS: number): string {
  if (speedLagS === 0) return 'speed and cadence in step';
  const [late, early] = speedLagS > 0 ? ['speed', 'cadence'] : ['cadence', 'speed'];
  return `${late} ${Math.abs(speedLagS).toFixed(2)} s behind the ${early}`;
}
