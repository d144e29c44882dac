import { AFTER_COMMAND_S } from '../shifts/drops/drop-side.ts';
import type { DropSide, RideEvents } from '../shifts/ride-events.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What a rider tells of a ride that its log does not show: where the chain came off, or slipped. */
export type ToldEvent = { readonly at: string } & (
  | { readonly kind: 'drop'; readonly side: DropSide }
  | { readonly kind: 'skip' }
);

type TellingRide = Pick<RideReport, 'shifts' | 'gears'>;
type ToldLists = Pick<RideReport, 'chainDrops' | 'skips'>;

/** What the rider told, as a ride's report lists it: sure, and marked as told. A skip on a cog that nobody knows is left out. */
export function toldReport(ride: TellingRide, told: readonly ToldEvent[]): ToldLists {
  const sure = { confidence: 1, toldByRider: true } as const;
  const chainDrops: ToldLists['chainDrops'] = [];
  const skips: ToldLists['skips'] = [];
  for (const event of told) {
    const { at } = event;
    if (event.kind === 'drop')
      chainDrops.push({ at, side: event.side, afterShiftTo: shiftBefore(ride, at, event.side), ...sure });
    else {
      const teeth = cogAt(ride, at);
      if (teeth !== null) skips.push({ at, teeth, ...sure });
    }
  }
  return { chainDrops, skips };
}

/** The cog asked for shortly before a chain was lost: of several the one farthest out on its side, else the last; null: none. */
function shiftBefore({ shifts }: TellingRide, at: string, side: DropSide): number | null {
  const ms = Date.parse(at);
  const asked = shifts
    .filter((shift) => ms - Date.parse(shift.at) <= AFTER_COMMAND_S * 1000 && Date.parse(shift.at) <= ms)
    .map(({ toTeeth }) => toTeeth);
  if (asked.length === 0) return null;
  if (side === 'past-largest') return Math.max(...asked);
  return side === 'past-smallest' ? Math.min(...asked) : asked[asked.length - 1];
}

/** The cog, in teeth, that the chain was last seen on, else the one asked for last; null where the log has neither. */
export function cogAt({ shifts, gears }: TellingRide, at: string): number | null {
  const ms = Date.parse(at);
  const seen = gears.findLast((run) => run.teeth !== null && Date.parse(run.at) <= ms);
  const asked = shifts.findLast((shift) => Date.parse(shift.at) <= ms);
  return seen?.teeth ?? asked?.toTeeth ?? shifts[0]?.fromTeeth ?? null;
}

/** A ride's events with what the rider told, which stands in `lists` and nowhere else. Cogs that are not the bike's stay unknown. */
export function withToldEvents(
  events: RideEvents,
  lists: ToldLists,
  { startMs, cassette }: { readonly startMs: number; readonly cassette: readonly number[] },
): RideEvents {
  const timeS = (at: string): number => (Date.parse(at) - startMs) / 1000;
  const cogOf = (teeth: number | null): number => (teeth === null ? -1 : cassette.indexOf(teeth));
  const inOrder = <Event extends { readonly timeS: number }>(list: Event[]): Event[] =>
    list.sort((a, b) => a.timeS - b.timeS);
  const drops = lists.chainDrops.map(({ at, side, afterShiftTo, confidence }) => {
    const cog = cogOf(afterShiftTo);
    return { timeS: timeS(at), side, afterShiftTo: cog < 0 ? null : cog, confidence, toldByRider: true } as const;
  });
  const skips = lists.skips.map(
    ({ at, teeth, confidence }) =>
      ({ timeS: timeS(at), cog: cogOf(teeth), confidence, torqueNm: Number.NaN, toldByRider: true }) as const,
  );
  return {
    ...events,
    chainDrops: inOrder([...events.chainDrops, ...drops]),
    skips: inOrder([...events.skips, ...skips]),
  };
}
