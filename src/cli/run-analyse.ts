import { writeFileSync } from 'node:fs';
import type { Adjustment } from '../adjustments/adjustment.ts';
import { parseAdjustments } from '../adjustments/parse-adjustments.ts';
import { doubtedAdjustments, refuseDoubts } from '../adjustments/refuse-doubts.ts';
import { analyse } from '../analyse.ts';
import type { Bike } from '../drivetrain/bike.ts';
import { parseBike } from '../drivetrain/parse-bike.ts';
import type { Report } from '../report/report-schema.ts';
import { bikeFilesLeft } from './bike-files-left.ts';
import { checkPlaceForPage } from './check-place-for-page.ts';
import { type ExitCode, exitCode } from './exit-code.ts';
import { explainRide } from './explain-ride.ts';
import { findRides } from './find-rides.ts';
import { leaveOutParts } from './leave-out-parts.ts';
import { writeNote, writeResult } from './output.ts';
import { progressOver } from './progress.ts';
import { readCompanion } from './read-companion.ts';
import { readRides } from './read-rides.ts';
import { tellFailed } from './tell-failed.ts';
import { unwritable } from './write-error.ts';

/** Options of `analyse` as commander hands them over. */
export interface AnalyseCommandOptions {
  readonly bike?: string;
  readonly adjustments?: string;
  readonly json?: true;
  readonly html?: string;
  readonly strict?: true;
  readonly verbose?: true;
}

/**
 * Carries out `analyse`: reads bike, adjustments and rides, runs the engine, prints the report.
 *
 * @throws FileError for a bad bike or adjustments file, UsageError where the HTML page cannot be written or would replace another file
 */
export async function runAnalyse(paths: readonly string[], options: AnalyseCommandOptions): Promise<ExitCode> {
  const bike = options.bike === undefined ? null : parseBike(options.bike, readCompanion(options.bike, 'bike'));
  const adjustments = options.adjustments === undefined ? [] : readAdjustments(options.adjustments, bike);
  const companions = [options.bike, options.adjustments].filter((file) => file !== undefined);
  const found = findRides(paths, companions);
  if (options.html !== undefined) checkPlaceForPage(options.html, [...found.files, ...companions]);
  const left = bikeFilesLeft(paths, found.files, options.bike);
  if (left !== null) writeNote(left);
  const progress = progressOver(found.files.length);
  const { logs, failed } = leaveOutParts(readRides(found.files, progress));
  let analysed = 0;
  progress.tell('Analysing', analysed);
  const report = analyse(logs, {
    bike,
    adjustments,
    failed: [...found.failed, ...failed],
    onRide: (ride) => {
      progress.tell('Analysing', ++analysed);
      if (options.verbose) for (const line of explainRide(ride)) writeNote(line);
    },
  });
  progress.end();

  tellFailed(report.failed);
  if (logs.length === 0 && options.json === undefined) {
    writeNote('cogwright: no ride could be read, so there is nothing to report.');
    return exitCode.noRide;
  }
  if (options.html !== undefined) await writePage(options.html, report);
  await writeResult(options.json ? `${JSON.stringify(report, null, 2)}\n` : await readable(report));
  return logs.length === 0 || (options.strict && report.failed.some(({ code }) => code !== 'duplicate'))
    ? exitCode.noRide
    : exitCode.done;
}

/** The adjustments of a file. What the bike cannot have is refused; what else is doubtful is told. */
function readAdjustments(file: string, bike: Bike | null): Adjustment[] {
  const adjustments = parseAdjustments(file, readCompanion(file, 'adjustments'));
  const doubted = doubtedAdjustments(adjustments, bike?.actuation ?? null, Date.now());
  refuseDoubts(
    file,
    doubted.filter(({ doubt }) => doubt.key === 'parameter'),
  );
  for (const { adjustment, doubt } of doubted) writeNote(`cogwright: ${file}: ${adjustment.at}, ${doubt.message}.`);
  return adjustments;
}

async function readable(report: Report): Promise<string> {
  const { textReport } = await import('../report/text/text-report.ts');
  const { isTTY, columns } = process.stdout;
  return textReport(report, {
    width: isTTY ? Math.min(100, Math.max(60, columns - 1)) : 90,
    colour: isTTY === true && process.env.NO_COLOR === undefined && process.env.TERM !== 'dumb',
  });
}

async function writePage(file: string, report: Report): Promise<void> {
  const { htmlReport } = await import('../report/html/html-report.ts');
  try {
    writeFileSync(file, htmlReport(report));
  } catch (error) {
    throw unwritable(`--html ${file}`, null, error);
  }
  writeNote(`cogwright: wrote ${file}`);
}
