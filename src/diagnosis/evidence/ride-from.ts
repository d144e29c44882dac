import type { DiagnosisRide } from '../diagnosis.ts';

/** What of a ride lies from a moment on (Unix milliseconds); null where nothing does. */
export function rideFrom(ride: DiagnosisRide, fromMs: number): DiagnosisRide | null {
  const cutS = (fromMs - ride.startMs) / 1000;
  if (cutS < 0) return ride;
  if (cutS >= ride.durationS) return null;
  const later = <T extends { readonly timeS: number }>(events: readonly T[]): T[] =>
    events.filter(({ timeS }) => timeS >= cutS).map((event) => ({ ...event, timeS: event.timeS - cutS }));
  const { shifts, ghostShifts, chainDrops, skips, pedallingSByCog, watchedSByCog, promptHalts } = ride.events;
  const kept = 1 - cutS / ride.durationS;
  return {
    ...ride,
    startMs: fromMs,
    durationS: ride.durationS - cutS,
    events: {
      ...ride.events,
      shifts: later(shifts).map((shift) => ({ ...shift, lastTimeS: shift.lastTimeS - cutS })),
      ghostShifts: later(ghostShifts),
      chainDrops: later(chainDrops),
      skips: later(skips),
      ...(promptHalts && { promptHalts: { ...promptHalts, ontoEnd: later(promptHalts.ontoEnd) } }),
      pedallingSByCog: pedallingSByCog.map((seconds) => seconds * kept),
      ...(watchedSByCog && { watchedSByCog: watchedSByCog.map((seconds) => seconds * kept) }),
    },
  };
}
