import { mean, sum } from 'd3-array';
import type { CogTally } from '../cogs/cog-tally.ts';
import { tallyCogs } from '../cogs/tally-cogs.ts';
import type { Direction, DropSide, EndCog, HaltCount, RideEvents } from '../shifts/ride-events.ts';
import type { DiagnosisRide } from './diagnosis.ts';
import { lastAskedBefore } from './evidence/last-asked.ts';
import { untoldHalts } from './evidence/untold-halts.ts';
import { LOST_FOR_SURE } from './verdict-limits.ts';

/** Judged shifts and how they went. */
export interface ShiftCount {
  readonly shifts: number;
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
  readonly trouble: number;
}

/** Shifts of a count that came late or not at all. */
export const lateOrMissed = ({ late, missed }: ShiftCount): number => late + missed;

/** Whole counts of what the rides showed, for sentences: what a person would count on the list of shifts. */
export interface Observed {
  readonly cassette: readonly number[];
  readonly all: ShiftCount;
  /** Shifts in a direction onto cogs that a rule picks (cassette index), every cog by default. */
  readonly shifts: (direction: Direction, onto?: (cog: number) => boolean) => ShiftCount;
  /** Mean crank turns of the clean shifts by one cog in a direction (both by default), onto cogs that a rule picks; NaN without any. */
  readonly cleanTurns: (direction?: Direction, onto?: (cog: number) => boolean) => number;
  /** Whether any ride can tell an unasked shift: that takes commands and the chain's cog. */
  readonly watchesUnasked: boolean;
  /** Unasked shifts away from the commanded cog in a direction, off cogs that a rule picks. */
  readonly ghosts: (direction: Direction, off?: (cog: number) => boolean) => number;
  /** Unasked shifts to a larger cog while the last shift asked for had gone to-larger too. */
  readonly climbedAfterLarger: number;
  /** Unasked shifts towards a cog that was missed before. */
  readonly towardsCommand: number;
  readonly drops: (side: DropSide) => number;
  /** Those of them that are sure. */
  readonly sureDrops: (side: DropSide) => number;
  /** Halts that followed shifts at once, without those of chains told as lost: onto an end cog, and onto others in the same direction. */
  readonly promptHalts: (end: EndCog) => { readonly onto: HaltCount; readonly elsewhere: HaltCount };
  /** Shifts commanded onto a cog, judged or not. */
  readonly commandedOnto: (cog: number) => number;
  readonly skips: (on?: (cog: number) => boolean) => number;
  /** Ghost shifts, chain drops and skips together. */
  readonly events: number;
  readonly pedallingHours: number;
  readonly pedallingShare: readonly number[];
  /** Shifts of which only the rider's reaction tells. */
  readonly weakShifts: number;
}

/** Whether nothing was seen: no judged shift, and nothing else. */
export const sawNothing = ({ all, events }: Pick<Observed, 'all' | 'events'>): boolean => all.shifts + events === 0;

/** Whether nothing at all went wrong. */
export const nothingWentWrong = ({ all, events }: Pick<Observed, 'all' | 'events'>): boolean =>
  all.trouble + events === 0;

function sumTallies(tallies: readonly CogTally[]): ShiftCount {
  const count = { shifts: 0, late: 0, missed: 0, overshot: 0, trouble: 0 };
  for (const tally of tallies) {
    count.shifts += tally.shifts;
    count.late += tally.late;
    count.missed += tally.missed;
    count.overshot += tally.overshot;
  }
  count.trouble = count.late + count.missed + count.overshot;
  return count;
}

const climbsAfterLarger = ({ ghostShifts, shifts }: RideEvents): number =>
  ghostShifts.filter(
    ({ fromCog, toCog, timeS, towardsCommand }) =>
      !towardsCommand && toCog > fromCog && lastAskedBefore(shifts, timeS) === 'to-larger',
  ).length;

function promptHaltsOf(rides: readonly RideEvents[], end: EndCog): { onto: HaltCount; elsewhere: HaltCount } {
  const told = rides.map(untoldHalts).filter((halts) => halts !== null);
  const onto = told.flatMap(({ ontoEnd }) => ontoEnd.filter((shift) => shift.end === end));
  const elsewhere = told.map((halts) => halts.elsewhere[end]);
  return {
    onto: { shifts: onto.length, halts: onto.filter(({ haltLogOdds }) => haltLogOdds !== null).length },
    elsewhere: { shifts: sum(elsewhere, ({ shifts }) => shifts), halts: sum(elsewhere, ({ halts }) => halts) },
  };
}

/** Counts the rides. */
export function observe(rides: readonly DiagnosisRide[], bike: { readonly cassette: readonly number[] }): Observed {
  const events = rides.map((ride) => ride.events);
  const tallies = tallyCogs(events, bike.cassette.length);
  const ghostShifts = events.flatMap((ride) => ride.ghostShifts);
  const skips = events.flatMap((ride) => ride.skips);
  const drops = events.flatMap((ride) => ride.chainDrops);
  const shifts = events.flatMap((ride) => ride.shifts);
  const pedallingS = bike.cassette.map((_, cog) =>
    events.reduce((sum, ride) => sum + (ride.pedallingSByCog[cog] ?? 0), 0),
  );
  const totalS = pedallingS.reduce((sum, value) => sum + value, 0);
  const every = (): boolean => true;
  return {
    cassette: bike.cassette,
    all: sumTallies(tallies),
    shifts: (direction, onto = every) =>
      sumTallies(tallies.filter((tally) => tally.direction === direction && onto(tally.cog))),
    cleanTurns: (direction, onto = every) =>
      mean(
        shifts.flatMap((shift) =>
          shift.outcome === 'clean' &&
          shift.cogsToCross === 1 &&
          (direction ?? shift.direction) === shift.direction &&
          onto(shift.toCog)
            ? [shift.crankRevs]
            : [],
        ),
      ) ?? Number.NaN,
    watchesUnasked: rides.some(({ evidence }) => evidence === 'full'),
    ghosts: (direction, off = every) =>
      ghostShifts.filter(
        ({ fromCog, toCog, towardsCommand }) =>
          !towardsCommand && toCog > fromCog === (direction === 'to-larger') && off(fromCog),
      ).length,
    climbedAfterLarger: sum(events, climbsAfterLarger),
    towardsCommand: ghostShifts.filter(({ towardsCommand }) => towardsCommand).length,
    drops: (side) => drops.filter((drop) => drop.side === side).length,
    sureDrops: (side) => drops.filter((drop) => drop.side === side && drop.confidence >= LOST_FOR_SURE).length,
    promptHalts: (end) => promptHaltsOf(events, end),
    commandedOnto: (cog) => shifts.filter((shift) => shift.toCog === cog).length,
    skips: (on = every) => skips.filter((skip) => on(skip.cog)).length,
    events: ghostShifts.length + drops.length + skips.length,
    pedallingHours: totalS / 3600,
    pedallingShare: pedallingS.map((value) => (totalS > 0 ? value / totalS : 0)),
    weakShifts: shifts.filter((shift) => shift.weak).length,
  };
}
