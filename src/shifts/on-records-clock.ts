import type { RideEvents } from './ride-events.ts';

/**
 * A ride judged by commands read earlier than their records, told by the records' own times: a shift stands where its record does, and the
 * sensors lag so much less behind it. What was timed by the sensors and set against the commands goes along; a lost chain and a skip do not.
 */
export function onRecordsClock<Judged extends { readonly events: RideEvents; readonly sensorLagS: number }>(
  judged: Judged,
  recordsLateS: number,
): Judged {
  if (recordsLateS === 0) return judged;
  const { events, sensorLagS } = judged;
  return {
    ...judged,
    events: {
      ...events,
      shifts: events.shifts.map((shift) => ({
        ...shift,
        timeS: shift.timeS + recordsLateS,
        lastTimeS: shift.lastTimeS + recordsLateS,
      })),
      ghostShifts: events.ghostShifts.map((ghost) => ({ ...ghost, timeS: ghost.timeS + recordsLateS })),
    },
    sensorLagS: sensorLagS - recordsLateS,
  };
}
