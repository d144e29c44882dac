import { readFileSync } from 'node:fs';
import { serialize } from 'node:v8';
import { gzipSync } from 'node:zlib';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { warnOfRideToCome } from '../../src/ride-log/still-to-come.ts';
import { analyseRide, rideFindings } from '../engine.ts';
import { rideColumns } from './ride-columns.ts';
import { rideFault } from './ride-fault.ts';
import { StageClock } from './stage-clock.ts';
import type { AnalyseAnswer, AnalyseTask } from './tasks.ts';

/** Runs the engine's stages on one kept ride and packs what they found for the database. */
export function analyseKeptRide({ path, file, bike }: AnalyseTask): AnalyseAnswer {
  const clock = new StageClock();
  try {
    const log = clock.run(
      'read',
      () => warnOfRideToCome(readRideLog(file, readFileSync(path)), Date.now()),
      ({ format, timeS, gearRecords }) => ({ format, records: timeS.length, gearRecords: gearRecords.timeS.length }),
    );
    const analysis = clock.run(
      'analyse',
      () => analyseRide(log, bike),
      ({ trace, events }) => ({ evidence: trace.evidence, shifts: events.shifts.length }),
    );
    const packed = clock.run('pack', () => {
      const { report, ...findings } = rideFindings(analysis, bike);
      return {
        events: serialize(findings),
        report: gzipSync(JSON.stringify(report)),
        columns: gzipSync(JSON.stringify(rideColumns(analysis, bike)), { level: 4 }),
        counts: JSON.stringify(report.counts),
        evidence: findings.evidence,
      };
    });
    return { fault: null, analysis: packed, stages: clock.stages };
  } catch (error) {
    return { fault: rideFault(error), stages: clock.stages };
  }
}
