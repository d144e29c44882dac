import type { Bike } from '../drivetrain/bike.ts';
import { figure } from '../numeric/figure.ts';
import { listed } from '../numeric/listed.ts';
import { utcMoment } from '../numeric/moment-words.ts';
import { DAY_MS } from '../numeric/time-units.ts';
import { upperFirst } from '../numeric/upper-first.ts';
import { hasClock } from '../ride-log/has-clock.ts';
import type { Adjustment } from './adjustment.ts';
import { adjustmentKey } from './adjustment-key.ts';
import type { AdjustmentGroup } from './adjustment-periods.ts';
import { adjustmentsThatCount } from './adjustments-that-count.ts';
import { type RideSpan, withoutCancelled } from './cancelled-out.ts';
import { doubtfulAdjustment, turnsAnything } from './doubtful-adjustment.ts';
import { notYetLogged } from './not-yet-logged.ts';
import { parameterName, parameterTitle } from './parameter-words.ts';

const times = (count: number): string => (count === 2 ? 'twice' : `${count} times`);
const moment = ({ at }: Adjustment): string => utcMoment(at);

function counts<T>(values: readonly T[]): Map<T, number> {
  const found = new Map<T, number>();
  for (const value of values) found.set(value, (found.get(value) ?? 0) + 1);
  return found;
}

/** What was changed between the same two rides; null for one adjustment alone, and for what was taken back at once. */
function sharedNote({ adjustments: made }: AdjustmentGroup, rides: readonly RideSpan[]): string | null {
  const adjustments = withoutCancelled(made, rides);
  if (adjustments.length < 2) return null;
  const parts = [...counts(adjustments.map(({ parameter }) => parameterName(parameter)))];
  const [only, count] = parts[0];
  if (parts.length === 1)
    return `${upperFirst(only)} was changed ${times(count)} with no judged shift between: what followed belongs to the changes together.`;
  const names = parts.map(([part, often]) => (often > 1 ? `${part} ${times(often)}` : part));
  return `${upperFirst(listed(names))} were changed with no judged shift between them: what followed cannot be shared out between them.`;
}

/** Entries that say the same, the notes beside them left out. */
function repeatedNotes(adjustments: readonly Adjustment[], actuation: Bike['actuation']): string[] {
  const often = counts(adjustments.map(adjustmentKey));
  return adjustmentsThatCount(adjustments, actuation)
    .filter((one) => (often.get(adjustmentKey(one)) ?? 0) > 1)
    .map(
      (one) =>
        `${parameterTitle(one.parameter)} of ${moment(one)} is entered ${times(often.get(adjustmentKey(one)) ?? 0)}, the same each time, and counts once: take out the rest, or mend the time of what was done again.`,
    );
}

/** So long after the last ride an entry is likelier to have the wrong date (assumption of ours). */
const LONG_AFTER_MS = 60 * DAY_MS;

const dateDoubt = (sinceLastRideMs: number): string =>
  sinceLastRideMs > LONG_AFTER_MS ? ' That is long after the last ride: see whether its date is right.' : '';

/** Entries that can hardly be meant, and those no ride follows. No clock is asked: the same input gives the same notes. */
function doubtNotes(
  adjustments: readonly Adjustment[],
  rides: readonly RideSpan[],
  actuation: Bike['actuation'],
): string[] {
  const ends = rides.filter(({ startMs }) => hasClock(startMs)).map((ride) => ride.startMs + ride.durationS * 1000);
  const lastEndMs = Math.max(...ends);
  return notYetLogged([], adjustments).flatMap((one) => {
    const doubt = doubtfulAdjustment(one, actuation, Number.POSITIVE_INFINITY);
    const about = `${parameterTitle(one.parameter)} of ${moment(one)}`;
    if (doubt) return [`${about}: ${doubt.message}.`];
    if (Math.abs(one.amount ?? 0) > (MUCH_AT_ONCE[one.unit] ?? Number.POSITIVE_INFINITY))
      return [
        `${about}: ${figure(Math.abs(one.amount ?? 0))} ${one.unit} are much for one time: see whether the amount is right.`,
      ];
    if (turnsAnything(one) && ends.length > 0 && Date.parse(one.at) > lastEndMs)
      return [`${about}: no ride yet since, so none tells what it did.${dateDoubt(Date.parse(one.at) - lastEndMs)}`];
    return [];
  });
}

/** More than this is hardly turned at one time, by unit (assumption of ours). */
const MUCH_AT_ONCE: Readonly<Record<string, number>> = { clicks: 12, steps: 12, turns: 3 };

/** What the log of adjustments leaves open or can hardly mean, in sentences. `groups`: as far as they are weighed. */
export function adjustmentNotes(
  groups: readonly AdjustmentGroup[],
  rides: readonly RideSpan[],
  { adjustments, bike }: { readonly adjustments: readonly Adjustment[]; readonly bike: Pick<Bike, 'actuation'> },
): string[] {
  const shared = groups.map((group) => sharedNote(group, rides)).filter((note): note is string => note !== null);
  return [...shared, ...repeatedNotes(adjustments, bike.actuation), ...doubtNotes(adjustments, rides, bike.actuation)];
}
