import { describe, expect, it } from 'vitest';
import { rideColumns } from '../../server/work/ride-columns.ts';
import { analyseRide } from '../../src/analyse.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { MadeRide, madeBike } from './made-ride.ts';

const ridden = (): RideLog => new MadeRide().pedal(30).wander(60, 14).pedal(15).log();

/** The log with every gear record written down so much later. */
function recordedLater(log: RideLog, byS: number): RideLog {
  const { gearRecords } = log;
  return { ...log, gearRecords: { ...gearRecords, timeS: gearRecords.timeS.map((s) => (s > 0 ? s + byS : s)) } };
}

describe('gear records that come after the chain went', () => {
  const late = analyseRide(recordedLater(ridden(), 4), madeBike);
  const { trace, events, sensorLagS } = late;

  it('are read as given earlier: they make no unasked shifts and spoil no judgement', () => {
    const prompt = analyseRide(ridden(), madeBike).events;
    expect(events.ghostShifts).toEqual([]);
    expect(events.shifts.filter(({ outcome }) => outcome === 'clean').length).toBeGreaterThan(50);
    expect(events.shifts.map(({ outcome }) => outcome)).toEqual(prompt.shifts.map(({ outcome }) => outcome));
  });

  it('are told of by their own times, which the sensors then come before', () => {
    const written = recordedLater(ridden(), 4).gearRecords.timeS;
    for (const { timeS } of events.shifts.slice(1))
      expect(Math.min(...written.map((s) => Math.abs(s - timeS)))).toBeLessThan(1e-9);
    const prompt = analyseRide(ridden(), madeBike);
    expect(sensorLagS - prompt.sensorLagS).toBeLessThan(-3.5);
    expect(sensorLagS - prompt.sensorLagS).toBeGreaterThan(-4.5);
    // one asked for by the page's line stands where its record does
    const { commandedTeeth } = rideColumns(late, madeBike);
    const { timeS, toCog } = events.shifts[9];
    expect([timeS - 1, timeS + 1].map((s) => commandedTeeth[s] === madeBike.cassette[toCog])).toEqual([false, true]);
  });

  it('are said, with how late they are', () => {
    const warning = trace.warnings.find(({ code }) => code === 'gear-records-late');
    expect(warning?.message).toMatch(/written down about [34] s late/);
  });
});

it.each([0, 1])('leaves records be that come %d s late, as sensors do', (byS) => {
  const { trace } = analyseRide(recordedLater(ridden(), byS), madeBike);
  expect(trace.warnings.map(({ code }) => code)).toEqual([]);
});
