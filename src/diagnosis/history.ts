import { hasClock } from '../ride-log/has-clock.ts';
import type { DiagnosisInput, DiagnosisRide } from './diagnosis.ts';
import { rideFrom } from './evidence/ride-from.ts';

/** What was ridden and done from a moment on (Unix milliseconds); what was done at that moment belongs to the time before. Rides without a date are left out. */
export function historyFrom(input: DiagnosisInput, fromMs: number): DiagnosisInput {
  const rides = input.rides
    .filter(({ startMs }) => hasClock(startMs))
    .map((ride) => rideFrom(ride, fromMs))
    .filter((ride): ride is DiagnosisRide => ride !== null);
  return { ...input, rides, adjustments: input.adjustments.filter(({ at }) => Date.parse(at) > fromMs) };
}

/** What was ridden and done before a moment (Unix milliseconds); a ride that was under way is left out, and so are those without a date. */
export function historyUntil(input: DiagnosisInput, untilMs: number): DiagnosisInput {
  const rides = input.rides.filter(
    ({ startMs, durationS }) => hasClock(startMs) && startMs + durationS * 1000 <= untilMs,
  );
  return { ...input, rides, adjustments: input.adjustments.filter(({ at }) => Date.parse(at) < untilMs) };
}
