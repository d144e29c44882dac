import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { missingRecordsWarning } from '../../src/gear-trace/disagreement/missing-records.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { MadeRide, madeBike } from './made-ride.ts';

const FAILS_S = 700;
const BACK_S = 1100;

/** A ride over seven cogs, a shift every 12 s. */
const ridden = (): RideLog => new MadeRide().pedal(30).wander(120, 12, [1, 7]).pedal(15).log();

/** The log without the gear records between two moments. */
function without(log: RideLog, fromS: number, toS: number): RideLog {
  const { gearRecords } = log;
  const { timeS } = gearRecords;
  const kept = <Column extends Float64Array | Uint8Array>(column: Column): Column =>
    column.filter((_, i) => timeS[i] < fromS || timeS[i] >= toS) as Column;
  return {
    ...log,
    gearRecords: {
      ...gearRecords,
      timeS: kept(timeS),
      rearTeeth: kept(gearRecords.rearTeeth),
      frontTeeth: kept(gearRecords.frontTeeth),
      rearPosition: kept(gearRecords.rearPosition),
      frontPosition: kept(gearRecords.frontPosition),
    },
  };
}

describe('gear records that stop for a while', () => {
  const whole = analyseRide(ridden(), madeBike);
  const { trace, events } = analyseRide(without(ridden(), FAILS_S, BACK_S), madeBike);
  const warning = trace.warnings.find(({ code }) => code === 'gear-records-missing');

  it('are no unasked shifts, and no shift is judged meanwhile', () => {
    expect(events.ghostShifts).toEqual([]);
    expect(events.shifts.every(({ outcome }) => outcome === 'clean' || outcome === 'unjudged')).toBe(true);
    expect(events.shifts.some(({ timeS }) => timeS > FAILS_S && timeS < BACK_S)).toBe(false);
  });

  it('spoil nothing before and after', () => {
    const cleanOf = ({ shifts }: typeof events): number[] =>
      shifts
        .filter(({ outcome, timeS }) => outcome === 'clean' && (timeS < FAILS_S - 15 || timeS > BACK_S + 15))
        .map(({ timeS }) => timeS);
    expect(cleanOf(events)).toEqual(cleanOf(whole.events));
    expect(cleanOf(events).length).toBeGreaterThan(60);
  });

  it('leave the time meanwhile pedalled, but not watched for unasked shifts', () => {
    const sum = (seconds: Float64Array | undefined): number => seconds?.reduce((a, b) => a + b, 0) ?? Number.NaN;
    const unwatched = sum(events.pedallingSByCog) - sum(events.watchedSByCog);
    // a shift comes every 12 s: it begins after the first that is not recorded, and ends with the next that is
    expect(unwatched).toBeGreaterThan(BACK_S - FAILS_S - 25);
    expect(unwatched).toBeLessThan(BACK_S - FAILS_S + 25);
    expect(sum(whole.events.pedallingSByCog) - sum(whole.events.watchedSByCog)).toBeLessThan(5);
  });

  it('are said, with when', () => {
    expect(warning?.message).toMatch(
      /^No gear record names a change, but the chain went over [5-7] other cogs from 11:\d\d to 18:\d\d \(time since the start\)/,
    );
    expect(whole.trace.warnings).toEqual([]);
  });
});

it('takes a chain that moves by itself, a cog or two at a time, for what it is', () => {
  const ride = new MadeRide().pedal(30);
  for (let i = 0; i < 12; i++) ride.pedal(20).move(5).pedal(20).move(6).pedal(15).move(4).pedal(15);
  const { trace, events } = analyseRide(ride.command(4).wander(40).log(), madeBike);
  expect(trace.warnings.map(({ code }) => code)).not.toContain('gear-records-missing');
  expect(events.ghostShifts.length).toBeGreaterThan(10);
});

it('says it of more than one stretch, and of one without end', () => {
  expect(missingRecordsWarning([])).toBeNull();
  const warning = missingRecordsWarning([
    { fromS: 60, toS: 125, cogs: 3 },
    { fromS: 4000, toS: Number.POSITIVE_INFINITY, cogs: 6 },
  ]);
  expect(warning?.message).toMatch(/over 3 other cogs from 1:00 to 2:05 and over 6 other cogs from 1:06:40 on \(time/);
});
