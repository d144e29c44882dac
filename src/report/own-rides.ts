import type { Warning } from '../errors/warning.ts';
import { foreignRides } from '../gear-trace/belonging/foreign-rides.ts';
import { teethDiffer } from '../gear-trace/disagreement/gear-warnings.ts';
import type { EvidenceKind } from '../gear-trace/gear-trace.ts';
import { ringsUnclear } from '../gear-trace/guess/unrecorded-rings.ts';
import type { BikeRide, Report, RideReport } from './report-schema.ts';
import type { RideFindings } from './ride-findings.ts';
import { warnOfUnclearRings } from './rings-unclear-warning.ts';
import { warnOfOverlaps } from './warn-of-overlaps.ts';

/** What the rides that count hang on beside themselves: where the bike came from, and what was noted about it. */
interface BikeSource {
  readonly bikeSource: Report['bikeSource'];
  readonly bikeNotes: readonly Warning[];
}

/** As much of a ride as tells whether it is its bike's. */
type RecordedRide = Pick<RideFindings, 'evidence' | 'report'>;

/** Those of a bike's rides that count for it: all but those that look like another bike's. */
export function ownRides<Ride extends RecordedRide>(rides: readonly Ride[]): Ride[] {
  const reasons = whyLeftOut(rides);
  return rides.filter((_, i) => reasons[i] === null);
}

/** Its own rides, as far as conclusions are drawn from them: where nobody knows how many rings it has, from the chains that were lost alone. */
export function ridesToGoBy<Ride extends RideFindings>(
  rides: readonly Ride[],
  { bikeNotes }: Pick<BikeSource, 'bikeNotes'>,
): Ride[] {
  const own = ownRides(rides);
  return ringsUnclear(bikeNotes) ? own.map(withoutShifts) : own;
}

const withoutShifts = <Ride extends RideFindings>(ride: Ride): Ride => ({
  ...ride,
  evidence: 'none',
  events: { ...ride.events, shifts: [], ghostShifts: [], skips: [] },
});

/** The rides of a bike, in the order given, as its report lists them: with whether each counts, and what is said of it beside the others. */
export function listRides(rides: readonly RecordedRide[], { bikeSource, bikeNotes }: BikeSource): BikeRide[] {
  const reasons = whyLeftOut(rides);
  const listed = rides.map(({ report }, i) => ({
    ...(bikeSource === 'guessed' ? againstGuess(report) : report),
    leftOut: reasons[i],
  }));
  return warnOfOverlaps(ringsUnclear(bikeNotes) ? listed.map(warnOfUnclearRings) : listed);
}

/** Why each ride does not count for its bike; null where it does. */
function whyLeftOut(rides: readonly RecordedRide[]): BikeRide['leftOut'][] {
  const foreign = foreignRides(rides.map(({ evidence, report }) => recordedCodes(evidence, report)));
  return foreign.map((is) => (is ? 'another-bike' : null));
}

/** Codes of what was noted about a ride with gear records; null for one without. */
function recordedCodes(evidence: EvidenceKind, { warnings }: RideReport): string[] | null {
  return evidence === 'full' || evidence === 'commands-only' ? warnings.map(({ code }) => code) : null;
}

/** Nobody wrote the teeth of a guessed bike, so a ride cannot show that they are not as written. */
function againstGuess(report: RideReport): RideReport {
  return { ...report, warnings: report.warnings.filter(({ code }) => code !== teethDiffer) };
}

/** Says which rides are left out of a bike's conclusions, and why; none where all count. */
export function leftOutNote(rides: readonly BikeRide[]): string[] {
  const foreign = rides.filter(({ leftOut }) => leftOut === 'another-bike');
  if (foreign.length === 0) return [];
  const files = foreign.map(({ file }) => file).join(', ');
  return [
    `Left out of the verdict, the cogs and the adjustments: ${files}. By the gear records ${foreign.length === 1 ? 'it looks' : 'they look'} like another bike's; if this is the bike, its rings or cogs are not as written.`,
  ];
}
