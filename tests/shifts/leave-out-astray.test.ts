import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { leaveOutAstray } from '../../src/shifts/outcomes/leave-out-astray.ts';
import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';

const missed = (timeS: number): ShiftEvent => ({
  timeS,
  lastTimeS: timeS,
  fromCog: 4,
  toCog: 5,
  cogsToCross: 1,
  direction: 'to-larger',
  outcome: 'missed',
  crankRevs: null,
  confidence: 0.99,
  probability: { clean: 0.01, late: 0, missed: 0.99, overshot: 0 },
  expected: openExpectation,
  torqueNm: Number.NaN,
  cadenceRpm: 80,
  unjudgedBecause: null,
  weak: false,
});

/** A ride with a stretch in which the speed is what it is not: it strays from the true one by a share that grows. */
function strayingRide(straysBy: number) {
  const ride = new MadeRide(madeBike).pedal(30).wander(20).pedal(60);
  const log = ride.pedal(80).log();
  const from = ride.nowS - 80;
  const speedMps = log.speedMps.map((v, i) => (i >= from ? v * (1 + (straysBy * (i - from)) / 80) : v));
  return { log: { ...log, speedMps }, from };
}

describe('a row of misses', () => {
  const { log, from } = strayingRide(0.9);
  const trace = traceGears(log, madeBike);
  const row = [15, 30, 45, 60].map((s) => missed(from + s));

  it('is left unjudged where the ratio wanders between the cogs', () => {
    expect(leaveOutAstray(log, trace, row).map(({ unjudgedBecause }) => unjudgedBecause)).toEqual(
      row.map(() => 'astray'),
    );
  });

  it('is left unjudged for itself where misses on a cog come before it', () => {
    const onCog = [-260, -230, -200, -170, -140, -110, -80, -50, -20].map((s) => missed(from + s));
    const longer = [...onCog, ...row];
    const judged = leaveOutAstray(log, trace, longer).map(({ outcome }) => outcome);
    // over the whole row too few records lie off the cogs
    expect(judged.slice(0, 5)).toEqual(onCog.slice(0, 5).map(() => 'missed'));
    expect(judged.slice(-4)).toEqual(row.map(() => 'unjudged'));
  });

  it('stands where the chain rests on a cog', () => {
    const steady = strayingRide(0).log;
    expect(leaveOutAstray(steady, traceGears(steady, madeBike), row)).toEqual(row);
  });

  it('stands where it is short, or spread over minutes', () => {
    expect(leaveOutAstray(log, trace, row.slice(0, 2))).toEqual(row.slice(0, 2));
    const spread = [0, 45, 90].map((s) => missed(from - 120 + s));
    expect(leaveOutAstray(log, trace, spread)).toEqual(spread);
  });

  it('of both directions is left unjudged in a ride in which hardly any other shift fails', () => {
    const steady = strayingRide(0).log;
    const steadyTrace = traceGears(steady, madeBike);
    const bothWays = row.map((one, i): ShiftEvent => (i % 2 ? { ...one, direction: 'to-smaller' } : one));
    const others = (failing: number): ShiftEvent[] =>
      Array.from({ length: 40 }, (_, i) => ({ ...missed(8 * i), outcome: i % 10 < failing ? 'missed' : 'clean' }));
    const well = [0, 1, 2].map((i): ShiftEvent => ({ ...missed(from + 110 + 20 * i), outcome: 'clean' }));
    const judged = (before: ShiftEvent[], failing: ShiftEvent[], after = well) =>
      leaveOutAstray(steady, steadyTrace, [...before, ...failing, ...after])
        .slice(before.length, before.length + failing.length)
        .map(({ outcome }) => outcome);
    expect(judged(others(0), bothWays)).toEqual(row.map(() => 'unjudged'));
    // what broke stays broken
    expect(judged(others(0), bothWays, [])).toEqual(row.map(() => 'missed'));
    // all one way is a fault, and where others fail it is one too
    expect(judged(others(0), row)).toEqual(row.map(() => 'missed'));
    expect(judged(others(1), bothWays)).toEqual(row.map(() => 'missed'));
    expect(judged([], bothWays)).toEqual(row.map(() => 'missed'));
    expect(judged(others(0), bothWays.slice(1))).toEqual(['missed', 'missed', 'missed']);
  });

  it('ends at a shift that was judged otherwise', () => {
    const clean: ShiftEvent = { ...missed(from + 40), outcome: 'clean' };
    const broken = [row[0], row[1], clean, row[2], row[3]];
    expect(leaveOutAstray(log, trace, broken)).toEqual(broken);
  });
});
