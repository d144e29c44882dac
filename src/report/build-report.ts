import type { AdjustmentComparison } from '../adjustments/compare-adjustments.ts';
import type { Look } from '../adjustments/looks.ts';
import type { CogTally } from '../cogs/cog-tally.ts';
import type { Diagnosis } from '../diagnosis/diagnosis.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { Warning } from '../errors/warning.ts';
import { adjustmentReport } from './adjustment-report.ts';
import { cogReport } from './cog-report.ts';
import { diagnosisReport } from './diagnosis-report.ts';
import type { HeldBack } from './held/held-back.ts';
import type { CogSkips, FailedRide, Report } from './report-schema.ts';
import type { BikeRide } from './ride-report-schema.ts';
import { ridesThatCount } from './rides-that-count.ts';
import { roundTo } from './round-to.ts';
import { withoutCadence } from './without-cadence.ts';
import { withoutGearRecords } from './without-gear-records.ts';

/** Everything a report is made of. Rides may come in any order; the report lists them by start. */
interface ReportParts {
  readonly bike: Bike;
  readonly bikeSource: 'given' | 'guessed';
  readonly bikeNotes: readonly Warning[];
  /** How likely a guessed bike is right; absent where that is not known or the bike was given. */
  readonly bikeCertainty?: number;
  /** Cassette indices of a guessed bike's cogs that no ride shows. */
  readonly bikeUnseenCogs: readonly number[];
  readonly rides: readonly BikeRide[];
  readonly failed: readonly FailedRide[];
  readonly cogs: readonly CogTally[];
  /** Cog by cog, smallest first. */
  readonly skipsByCog?: readonly CogSkips[];
  readonly diagnosis: Diagnosis;
  /** Why no verdict is drawn from the shifts; absent or null where one is. */
  readonly heldBack?: HeldBack | null;
  readonly adjustments: readonly AdjustmentComparison[];
  /** What was looked at and found right, in order of time. */
  readonly looks?: readonly Look[];
}

/** The report of the contract, from the results of the stages. */
export function buildReport(parts: ReportParts): Report {
  const { bike } = parts;
  const counting = ridesThatCount(parts);
  const diagnosis = diagnosisReport(parts.diagnosis, parts.heldBack ?? null);
  return {
    version: 1,
    bike,
    bikeSource: parts.bikeSource,
    bikeNotes: parts.bikeNotes.map(({ code, message }) => ({ code, message })),
    bikeCertainty: parts.bikeCertainty === undefined ? null : roundTo(parts.bikeCertainty, 4),
    bikeUnseenCogs: parts.bikeUnseenCogs.map((cog) => bike.cassette[cog]),
    rides: [...parts.rides].sort((a, b) => Date.parse(a.start) - Date.parse(b.start)),
    failed: [...parts.failed],
    cogs: parts.cogs.map((tally) => cogReport(tally, bike)),
    skipsByCog: [...(parts.skipsByCog ?? [])],
    diagnosis: withoutCadence(withoutGearRecords(diagnosis, counting), counting),
    adjustments: parts.adjustments.map((comparison) => adjustmentReport(comparison, bike, parts.diagnosis)),
    looks: (parts.looks ?? []).map(({ at, parameter, unit }) => ({ at, parameter, unit })),
  };
}
