import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { unsteadyWarning } from '../../src/gear-trace/unsteady/unsteady-warning.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { gearRecords, MadeRide, madeBike } from './made-ride.ts';

const NOISE = 0.015;
const DRIFT_FROM_S = 620;
const DRIFTS_S = 100;

/** Ordinary riding over the middle cogs with a satellite's noise. */
const ridden = (): MadeRide => new MadeRide(madeBike, NOISE).pedal(30).wander(110).pedal(15);

/** The ride with a speed that wanders off and back again, by so much at most (log share), while the legs show every shift. */
function drifting(log: RideLog, most: number, changes: Partial<RideLog> = {}): RideLog {
  const speedMps = log.speedMps.map((speed, i) => {
    const s = (log.timeS[i] - DRIFT_FROM_S) / DRIFTS_S;
    return s < 0 || s > 1 ? speed : speed * Math.exp(most * Math.sin(2 * Math.PI * s));
  });
  return { ...log, speedMps, ...changes };
}

const satellite = { speedSource: 'satellite' } as const;
const within = (timeS: number): boolean => timeS >= DRIFT_FROM_S && timeS <= DRIFT_FROM_S + DRIFTS_S;

describe('a speed that drifts across the cogs', () => {
  const { trace, events } = analyseRide(drifting(ridden().log(), 0.3, satellite), madeBike);

  it('is found where it does, and said of the ride', () => {
    expect(trace.unsteady).toHaveLength(1);
    const [{ fromS, toS }] = trace.unsteady;
    expect(Math.abs(fromS - DRIFT_FROM_S)).toBeLessThan(20);
    expect(Math.abs(toS - DRIFT_FROM_S - DRIFTS_S)).toBeLessThan(20);
    const warning = trace.warnings.find(({ code }) => code === 'speed-unsteady');
    expect(warning?.message).toMatch(/^The speed drifts from 10:\d\d to (11:5\d|12:0\d) after the start,/);
  });

  it('is no proof of a satellite speed where the log does not say what its speed is', () => {
    const spells = [{ fromS: 600, toS: 720 }];
    expect(unsteadyWarning(spells, 'satellite')?.message).toMatch(
      /^The speed drifts from 10:00 to 12:00 .* on the wheel/,
    );
    expect(unsteadyWarning(spells, 'positions')?.message).toMatch(/^The speed drifts/);
    for (const source of ['unknown', 'distance'] as const) {
      const said = unsteadyWarning(spells, source)?.message;
      expect(said).toMatch(/^Speed and cadence hold no gear .* from 10:00 to 12:00 .* or the legs drive on and off/);
      expect(said).not.toContain('on the wheel');
    }
  });

  it('makes no fault: the shifts in it are not judged', () => {
    const inDrift = events.shifts.filter(({ timeS }) => within(timeS));
    expect(inDrift.length).toBeGreaterThan(5);
    expect(inDrift.map(({ unjudgedBecause }) => unjudgedBecause)).toEqual(inDrift.map(() => 'astray'));
    const others = events.shifts.filter(
      ({ timeS }) => timeS < DRIFT_FROM_S - 30 || timeS > DRIFT_FROM_S + DRIFTS_S + 30,
    );
    expect(others.filter(({ outcome }) => outcome !== 'clean')).toEqual([]);
  });

  it('makes no shift that nobody asked for', () => {
    const quiet = new MadeRide(madeBike, NOISE).pedal(30).wander(48);
    expect(Math.abs(quiet.nowS - DRIFT_FROM_S)).toBeLessThan(15);
    const log = quiet
      .pedal(DRIFTS_S + 30)
      .wander(40)
      .log();
    const drifted = analyseRide(drifting(log, 0.2, satellite), madeBike);
    expect(drifted.trace.unsteady).toHaveLength(1);
    expect(drifted.events.ghostShifts).toEqual([]);
  });

  it('is none where a wheel sensor counts turns, and none where there are no gear records', () => {
    const log = ridden().log();
    expect(analyseRide(drifting(log, 0.3), madeBike).trace.unsteady).toEqual([]);
    expect(
      analyseRide(drifting(log, 0.3, { ...satellite, gearRecords: gearRecords([]) }), madeBike).trace.unsteady,
    ).toEqual([]);
  });

  it('is none where the speed is only rough, or where the chain stays a cog behind', () => {
    expect(analyseRide(ridden().log(satellite), madeBike).trace.unsteady).toEqual([]);
    const behind = ridden();
    for (let n = 0; n < 6; n++) {
      const { cog } = behind;
      behind
        .command(cog + 1)
        .pedal(15)
        .command(cog)
        .pedal(15);
    }
    const missed = analyseRide(behind.pedal(20).log(satellite), madeBike);
    expect(missed.trace.unsteady).toEqual([]);
    expect(missed.events.shifts.filter(({ outcome }) => outcome === 'missed').length).toBeGreaterThan(3);
  });
});
