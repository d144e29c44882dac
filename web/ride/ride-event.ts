import type { KeyedRideReport, Verdict } from '../api/answers.ts';
import type { EventKind } from '../charts/timeline/timeline-event.ts';
import { type ShiftAround, shiftAround } from './shift-around.ts';

type Keyed<Name extends 'shifts' | 'ghostShifts' | 'chainDrops' | 'skips'> = KeyedRideReport[Name][number];

/** One event of a ride, whatever its kind, with what the report says of it. */
export type RideEvent = {
  readonly key: string;
  readonly at: string;
  /** Seconds since the ride's start. */
  readonly timeS: number;
  readonly confidence: number;
  readonly verdict: Verdict | null;
  /** True where it fell with the missed shift before it, which the rider rejected: nothing was said of it itself. */
  readonly fallen?: boolean;
} & (
  | {
      readonly kind: Exclude<EventKind, 'ghost' | 'drop' | 'skip'>;
      readonly shift: Keyed<'shifts'>;
      readonly around: ShiftAround;
    }
  | { readonly kind: 'ghost'; readonly ghost: Keyed<'ghostShifts'> }
  | { readonly kind: 'drop'; readonly drop: Keyed<'chainDrops'> }
  | { readonly kind: 'skip'; readonly skip: Keyed<'skips'> }
);

/** What every event has, whatever its kind. */
type Common = Pick<Keyed<'skips'>, 'at' | 'confidence' | 'eventKey' | 'verdict'>;

/** All events of a ride as the engine found them, in order of time; those that the rider rejected are among them. */
export function rideEvents(report: KeyedRideReport): readonly RideEvent[] {
  const { rejected } = report;
  const startMs = Date.parse(report.start);
  const common = ({ eventKey, at, confidence, verdict }: Common) => ({
    key: eventKey,
    at,
    timeS: (Date.parse(at) - startMs) / 1000,
    confidence,
    verdict,
  });
  const events: RideEvent[] = [
    ...report.shifts.map(asFound).map((shift, i) => ({
      ...common(shift),
      kind: shift.outcome,
      shift,
      around: shiftAround(report, i),
    })),
    ...report.ghostShifts.map(asFound).map((ghost) => ({ ...common(ghost), kind: 'ghost' as const, ghost })),
    ...rejected.ghostShifts
      .map(asFound)
      .map((ghost) => ({ ...common(ghost), kind: 'ghost' as const, ghost, fallen: ghost.verdict === null })),
    ...[...report.chainDrops, ...rejected.chainDrops]
      .map((drop) => (drop.verdict === 'told' ? { ...asFound(drop), side: drop.side } : asFound(drop)))
      .map((drop) => ({ ...common(drop), kind: 'drop' as const, drop })),
    ...[...report.skips, ...rejected.skips]
      .map(asFound)
      .map((skip) => ({ ...common(skip), kind: 'skip' as const, skip })),
  ];
  return events.sort((a, b) => a.timeS - b.timeS);
}

/** An event as it was before the rider spoke. */
const asFound = <Event extends { readonly found: object | null }>(event: Event): Event => ({
  ...event,
  ...event.found,
});

/** True of what only the rider tells of: the analysis has no such event. */
export const isOnlyTold = ({ verdict, found }: Pick<Keyed<'skips'>, 'verdict'> & { readonly found: object | null }) =>
  verdict === 'told' && found === null;

/** Kinds in the order they are listed; the last two are no trouble. */
export const eventKinds: readonly EventKind[] = [
  'missed',
  'late',
  'overshot',
  'ghost',
  'drop',
  'skip',
  'clean',
  'unjudged',
];

/** True for the kinds that are trouble. */
export const isTrouble = (kind: EventKind): boolean => kind !== 'clean' && kind !== 'unjudged';

/** True for what the rider rejected, by itself or with the shift before it. */
export const isRejected = ({ verdict, fallen }: Pick<RideEvent, 'verdict' | 'fallen'>): boolean =>
  verdict === 'rejected' || fallen === true;

/**
 * What an event counts as once the rider has spoken, as the server's counts of the ride do: a rejected trouble shift was
 * clean, a rejected clean one is not judged, anything else that was rejected, or fell with a shift that was, counts nowhere (null).
 */
export function countsAs(event: Pick<RideEvent, 'kind' | 'verdict' | 'fallen'>): EventKind | null {
  const { kind } = event;
  if (!isRejected(event)) return kind;
  if (kind === 'ghost' || kind === 'drop' || kind === 'skip') return null;
  return isTrouble(kind) ? 'clean' : 'unjudged';
}
