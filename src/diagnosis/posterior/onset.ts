import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { changePoint } from '../../numeric/change-point.ts';
import { logBeta } from '../../numeric/log-gamma.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { ShiftEvent } from '../../shifts/ride-events.ts';
import type { Cause } from '../causes.ts';
import type { Onset } from '../diagnosis.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { canBring } from '../likelihood/onset-options.ts';
import { absentAtFirst } from './absent-at-first.ts';
import type { Particle } from './particles.ts';
import type { Shows } from './where-it-showed.ts';

const iso = (ms: number): string | null => (hasClock(ms) ? new Date(ms).toISOString() : null);

const judgedShifts = ({ events }: PlacedRide): ShiftEvent[] =>
  events.shifts.filter(({ outcome }) => outcome !== 'unjudged');

/** A border between stretches of riding, or between rides, is taken for the moment unless another is this many times likelier. */
const BORDER_GOES_FIRST = 10;
/** The same for the first ride after work that can bring the fault about: that was somebody's doing, and a fault that comes by itself soon after it would be a coincidence. An assumption of ours. */
const WORK_GOES_FIRST = 100;

/** The fault whose beginning is looked for, and where it shows. */
interface Sought {
  readonly cause: Cause;
  readonly shows: Shows;
}

/** Whether work that can bring a cause about lies between the ride that begins at a moment and the one before. */
function isMeddledAt({ groups, ridesInOrder }: RidingEvidence, cause: Cause, rideMs: number): boolean {
  const beforeMs = ridesInOrder.findLast(({ startMs }) => startMs < rideMs)?.startMs ?? rideMs;
  return groups.some(({ adjustments }) =>
    adjustments.some(({ at, parameter }) => {
      const ms = Date.parse(at);
      return ms > beforeMs && ms <= rideMs && canBring(cause, parameter);
    }),
  );
}

/**
 * Moment of the change in the rate of trouble, by a Bayesian change point over the judged shifts where the cause shows, up to the first
 * adjustment after the border: from then on the rate may have changed again, and shifts that go well after a cure place no beginning.
 * Trouble rates before and after are any, small ones likelier (Beta(0.5, 2)). `borderMs` where the first shift after it
 * is about as likely a place as any, also with fewer than ten such shifts; else the start of a ride where that is.
 */
function changeMs(evidence: RidingEvidence, { cause, shows }: Sought, borderMs: number): number {
  const adjustedMs = evidence.groups.find(({ lastMs }) => lastMs > borderMs)?.lastMs ?? Number.POSITIVE_INFINITY;
  const entries = evidence.ridesInOrder
    .flatMap((ride) =>
      judgedShifts(ride)
        .filter((shift) => shows(shift.toCog, shift.direction))
        .map((shift) => ({ ms: ride.startMs + shift.timeS * 1000, bad: shift.outcome === 'clean' ? 0 : 1 })),
    )
    .filter(({ ms }) => ms < adjustedMs)
    .sort((a, b) => a.ms - b.ms);
  if (entries.length < 10) return borderMs;
  const sums = new Float64Array(entries.length + 1);
  entries.forEach((entry, i) => {
    sums[i + 1] = sums[i] + entry.bad;
  });
  const probability = changePoint(entries.length, (from, to) => {
    const bad = sums[to] - sums[from];
    return logBeta(0.5 + bad, 2 + (to - from) - bad) - logBeta(0.5, 2);
  });
  const most = Math.max(...probability);
  const { ms } = entries[probability.indexOf(most) + 1];
  // rides joined in one stretch have a border between them too
  const rideMs = evidence.ridesInOrder.findLast(({ startMs }) => startMs <= ms)?.startMs ?? ms;
  const asLikely = [borderMs, rideMs].find((border) => {
    const after = entries.findIndex((entry) => entry.ms >= border);
    const goesFirst = isMeddledAt(evidence, cause, border) ? WORK_GOES_FIRST : BORDER_GOES_FIRST;
    return after > 0 && probability[after - 1] * goesFirst > most;
  });
  return asLikely ?? ms;
}

/**
 * Start of the last ride before the one in which a moment lies, if that ride shows nothing of the cause's place before the moment; else
 * null. A ride that could not show the cause is passed over: nobody knows how the bike was then.
 */
function rideBefore({ ridesInOrder: rides }: RidingEvidence, shows: Shows, ms: number): string | null {
  const index = rides.findLastIndex(({ startMs }) => startMs <= ms);
  if (index < 1) return null;
  const places = rides.map((ride) => judgedShifts(ride).filter((shift) => shows(shift.toCog, shift.direction)));
  const { startMs } = rides[index];
  if (places[index].some((shift) => startMs + shift.timeS * 1000 < ms)) return null;
  const shifts = places.some((place) => place.length > 0) ? places : rides.map(judgedShifts);
  const before = shifts.findLastIndex((own, ride) => ride < index && own.length > 0);
  return before < 0 ? null : iso(rides[before].startMs);
}

/** Of a fault of which nobody can tell how it began. */
export const unknownOnset: Onset = { kind: 'unknown', at: null, rideBeforeAt: null, probability: 0 };

/** How the likeliest fault began. Unknown without a fault, where one stretch of riding is all there is, or where the first ride hardly shows what seems there from the first on. */
export function faultOnset(
  particles: readonly Particle[],
  cause: Cause,
  evidence: RidingEvidence,
  shows: Shows,
): Onset {
  const own = particles.filter((particle) => particle.cause === cause);
  const segments = evidence.segments.filter(({ placed }) => placed);
  if (cause === 'no-fault' || own.length === 0 || segments.length < 2) return unknownOnset;
  const kinds = (['steady', 'sudden', 'gradual'] as const).map((kind) => ({
    kind,
    probability: own.filter(({ onset }) => onset.kind === kind).length / own.length,
  }));
  const { kind, probability } = kinds.reduce((best, one) => (one.probability > best.probability ? one : best));
  const first = segments[0].startMs;
  if (kind === 'steady' && absentAtFirst(evidence, shows)) return unknownOnset;
  if (kind !== 'sudden') return { kind, at: iso(first), rideBeforeAt: null, probability };
  const starts = segments.map(
    (_, segment) => own.filter(({ onset }) => onset.kind === 'sudden' && onset.fullFrom === segment).length,
  );
  const borderMs = segments[starts.indexOf(Math.max(...starts))].startMs;
  const ms = changeMs(evidence, { cause, shows }, borderMs);
  return { kind, at: iso(ms), rideBeforeAt: rideBefore(evidence, shows, ms), probability };
}

/** True where a fault began suddenly and that is likelier than not. */
export const beganSuddenly = ({ kind, probability }: Onset): boolean => kind === 'sudden' && probability > 0.5;

/** Unix milliseconds from which on a fault that began suddenly is there; else -Infinity. */
export const suddenStartMs = (onset: Onset): number =>
  beganSuddenly(onset) && onset.at !== null ? Date.parse(onset.at) : Number.NEGATIVE_INFINITY;
