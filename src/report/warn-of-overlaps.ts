import { hasClock } from '../ride-log/has-clock.ts';
import type { RideReport } from './ride-report-schema.ts';

/** Clocks of two recorders may differ by so much, and one ride begin as the other ends. */
const LEAST_OVERLAP_MS = 60_000;
/** How many other rides a warning names. */
const NAMED = 3;

/** The rides of one bike, in their order; one that began while another was under way carries a warning that names the other. */
export function warnOfOverlaps<Ride extends RideReport>(rides: readonly Ride[]): Ride[] {
  const spans = rides.map(({ start, durationS }, i) => {
    const startMs = Date.parse(start);
    return { i, startMs, endMs: startMs + 1000 * durationS };
  });
  const byStart = spans.filter(({ startMs }) => hasClock(startMs)).sort((a, b) => a.startMs - b.startMs || a.i - b.i);
  const warned = [...rides];
  let underWay: typeof spans = [];
  for (const span of byStart) {
    underWay = underWay.filter(({ endMs }) => endMs - span.startMs > LEAST_OVERLAP_MS);
    const others = span.endMs - span.startMs > LEAST_OVERLAP_MS ? underWay.map(({ i }) => rides[i].file) : [];
    underWay.push(span);
    if (others.length > 0) warned[span.i] = withWarning(rides[span.i], others);
  }
  return warned;
}

function withWarning<Ride extends RideReport>(ride: Ride, others: readonly string[]): Ride {
  const named = `${others.slice(0, NAMED).join(', ')}${others.length > NAMED ? ' and others' : ''}`;
  const message = `One bike cannot be on two rides at once, but this ride began while another was under way: ${named}. Shifts may be counted twice: leave one out, or check to which bike and day each belongs.`;
  return { ...ride, warnings: [...ride.warnings, { code: 'overlapping-rides', message }] };
}
