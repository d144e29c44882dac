import type { Warning } from '../errors/warning.ts';
import { foreignRides } from '../gear-trace/belonging/foreign-rides.ts';
import { areApart, ridesApartCode } from '../gear-trace/belonging/rides-apart.ts';
import { teethDiffer } from '../gear-trace/disagreement/gear-warnings.ts';
import type { EvidenceKind } from '../gear-trace/gear-trace.ts';
import { ringsUnclear } from '../gear-trace/guess/unrecorded-rings.ts';
import { type HeldBack, heldBack } from './held/held-back.ts';
import { type BikeAsDescribed, type SetAside, setAside, warnOfSetAside } from './held/set-aside.ts';
import type { RideFindings } from './ride-findings.ts';
import type { BikeRide, RideReport } from './ride-report-schema.ts';
import { warnOfRidesApart } from './rides-apart-warning.ts';
import { warnOfUnclearRings } from './rings-unclear-warning.ts';
import { warnOfOverlaps } from './warn-of-overlaps.ts';

/** What the rides that count hang on beside themselves: the bike, where it came from, what was noted about it and done to it. */
export interface BikeSource extends BikeAsDescribed {
  readonly bikeNotes: readonly Warning[];
}

/** As much of a ride as tells whether it is its bike's. */
type RecordedRide = Pick<RideFindings, 'evidence' | 'report'>;

/** A ride with why it does not count for its bike, and why its shifts are neither weighed nor tallied; null where it does, and they are. */
interface PlacedRide<Ride> {
  readonly ride: Ride;
  readonly leftOut: BikeRide['leftOut'];
  readonly why: SetAside | null;
  readonly notTallied: BikeRide['notTallied'];
}

function placed<Ride extends RecordedRide>(rides: readonly Ride[], source: BikeSource): PlacedRide<Ride>[] {
  // a drivetrain guessed from several bikes' rides is that of none: no ride is another bike's for not being of it
  if (areApart(source.bikeNotes))
    return rides.map((ride) => ({ ride, leftOut: null, why: null, notTallied: ridesApartCode }));
  const aside = setAside(
    rides.map(({ report }) => report),
    source,
  );
  const foreign = foreignRides(rides.map(({ evidence, report }) => recordedCodes(evidence, report)));
  return rides.map((ride, i) => {
    // a new cassette makes no other bike
    const leftOut = foreign[i] && aside[i]?.code !== 'another-cassette' ? 'another-bike' : null;
    if (leftOut) return { ride, leftOut, why: null, notTallied: null };
    const why = aside[i];
    return { ride, leftOut, why, notTallied: why?.code ?? (ringsUnclear(source.bikeNotes) ? 'rings-unclear' : null) };
  });
}

/** The rides of a bike by what becomes of each. */
interface OwnRides<Ride> {
  /**
   * Those that count for the bike, as far as conclusions are drawn from them: all but those that look like another bike's, and without their
   * shifts where those cannot be weighed, or nobody knows what they were ridden on. A chain that was lost counts all the same.
   */
  readonly own: Ride[];
  /** All, in the order given, as its report lists them: with whether each counts, and what is said of it beside the others. */
  readonly listed: BikeRide[];
  /** Why no verdict is drawn from their shifts; null where one is. */
  readonly held: HeldBack | null;
}

/** Sorts the rides of a bike: which count, how they are listed, and whether a verdict is drawn from them. */
export function ownRides<Ride extends RideFindings>(rides: readonly Ride[], source: BikeSource): OwnRides<Ride> {
  const all = placed(rides, source);
  return {
    own: all
      .filter(({ leftOut }) => leftOut === null)
      .map(({ ride, notTallied }) => (notTallied ? withoutShifts(ride) : ride)),
    listed: listed(all, source),
    held: heldBack(
      source.bikeNotes,
      all.map(({ ride, leftOut, why }) => ({ ride: { ...ride.report, leftOut }, why })),
    ),
  };
}

/** The list of a bike's rides alone, for one whose conclusions are drawn already. */
export const listRides = (rides: readonly RecordedRide[], source: BikeSource): BikeRide[] =>
  listed(placed(rides, source), source);

const withoutShifts = <Ride extends RideFindings>(ride: Ride): Ride => ({
  ...ride,
  evidence: 'none',
  events: {
    ...{ ...ride.events, shifts: [], ghostShifts: [], skips: [], promptHalts: undefined },
    pedallingSByCog: new Float64Array(ride.events.pedallingSByCog.length),
  },
});

function listed(all: readonly PlacedRide<RecordedRide>[], source: BikeSource): BikeRide[] {
  const said = all.map(({ ride: { report }, leftOut, why, notTallied }) => {
    const warned = why ? warnOfSetAside(report, why) : report;
    return { ...(source.bikeSource === 'guessed' ? againstGuess(warned) : warned), leftOut, notTallied };
  });
  if (areApart(source.bikeNotes)) return warnOfOverlaps(said.map(warnOfRidesApart));
  return warnOfOverlaps(ringsUnclear(source.bikeNotes) ? said.map(warnOfUnclearRings) : said);
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
