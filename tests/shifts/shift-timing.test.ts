import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { commandedShifts } from '../../src/shifts/commands/commanded-shifts.ts';
import { judgeShifts } from '../../src/shifts/outcomes/judge-shifts.ts';
import { type RideInQuestion, rideInQuestion } from '../../src/shifts/ride-in-question.ts';
import { type ArrivalTable, arrivalTable } from '../../src/shifts/stories/arrival-table.ts';
import { estimateTiming } from '../../src/shifts/stories/estimate-timing.ts';
import { shiftContexts } from '../../src/shifts/stories/shift-context.ts';
import { type ShiftStories, shiftStories } from '../../src/shifts/stories/shift-stories.ts';
import { revolutionsLikelihood } from '../../src/shifts/stories/shift-timing.ts';
import { ARRIVAL_STEP_S, ARRIVALS, FIRST_ARRIVAL_S } from '../../src/shifts/stories/shift-window.ts';
import type { StoryName } from '../../src/shifts/stories/story.ts';
import { REV_STEP, REVS } from '../../src/shifts/stories/turn-chances.ts';
import { MadeRide, madeBike, madeLog } from '../gear-trace/made-ride.ts';

interface Judging extends RideInQuestion {
  readonly commanded: ReturnType<typeof commandedShifts>;
}

function judging(ride: MadeRide): Judging {
  const log = ride.log();
  const trace = traceGears(log, ride.bike);
  const made = rideInQuestion(log, trace);
  return { ...made, commanded: commandedShifts(log, trace.commands, trace.samples, made.clock) };
}
const timingOf = (made: Judging) => estimateTiming(made, made.commanded);

/** The tables of the last shift of a ride, and the timing of the ride. */
function lastShift(made: Judging): { tables: ArrivalTable[]; timing: ReturnType<typeof timingOf> } {
  const timing = timingOf(made);
  const { commanded } = made;
  const j = commanded.length - 1;
  const tables = shiftContexts(made, commanded, j, timing.lagS).map((context) =>
    arrivalTable(made, commanded[j], context, timing.riseWidthS),
  );
  return { tables, timing };
}
const warmedUp = (): MadeRide => new MadeRide().pedal(30).wander(30).pedal(10);

type Delay = (slow: boolean) => number;

/** A ride at 40 and at 120 rpm, whose shifts show so many seconds after their command. */
function atTwoCadences(afterS: Delay): MadeRide {
  const ride = new MadeRide().pedal(30);
  for (let n = 0; n < 60; n++) {
    const slow = n % 4 < 2;
    const stretch = { cadenceRpm: slow ? 40 : 120 };
    const cog = ride.cog + (n % 2 === 0 ? 1 : -1);
    ride.pedal(6, stretch).command(cog).pedal(afterS(slow), stretch).move(cog).pedal(10, stretch);
  }
  return ride;
}

describe('estimateTiming', () => {
  it('finds that the sensors of one recorder are 1 s and 2 s later than those of another', () => {
    const lagOf = (afterS: number): number => {
      const ride = new MadeRide().pedal(30);
      for (let n = 0; n < 30; n++) ride.shift(ride.cog + (n % 2 === 0 ? 1 : -1), afterS).pedal(12);
      return timingOf(judging(ride)).lagS;
    };
    const prompt = lagOf(1);
    expect(Math.abs(lagOf(2) - prompt - 1)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(lagOf(3) - prompt - 2)).toBeLessThanOrEqual(0.5);
  });

  it.each([
    ['larger', 1],
    ['smaller', -1],
  ] as const)('takes no slow shifts to %s cogs for quicker sensors: the other direction tells', (_, slowWay) => {
    const lagOf = (lateS: (n: number) => number): number => {
      const ride = new MadeRide().pedal(30);
      for (let n = 0; n < 80; n++) {
        const way = n % 2 === 0 ? 1 : -1;
        ride.shift(ride.cog + way, 1 + (way === slowWay ? lateS(n) : 0)).pedal(14);
      }
      return timingOf(judging(ride)).lagS;
    };
    const sound = lagOf(() => 0);
    // up to three and a half turns later at its 80 rpm
    const faulty = lagOf((n) => 0.2 * (n % 14));
    expect(faulty).toBeGreaterThan(sound - 0.05);
    expect(faulty).toBeLessThan(sound + 0.25);
  });

  it('tells shifts that take many turns from sensors that lag: turns last longer at a low cadence', () => {
    const steadyLagOf = (afterS: Delay): number => timingOf(judging(atTwoCadences(afterS))).steadyLagS;
    const manyTurns = steadyLagOf((slow) => (slow ? 3 : 1));
    const evenLag = steadyLagOf(() => 2);
    expect(evenLag - manyTurns).toBeGreaterThan(0.2);
  });

  it('lays what all shifts are shown late by turns to the sensor, and counts no turns of the chain from it', () => {
    // a magnet that passes once a turn shows a change one turn after it came: 1.6 turns and the recorder's second
    const late = judging(atTwoCadences((slow) => (slow ? 3 : 2)));
    const steady = judging(atTwoCadences(() => 2));
    expect(timingOf(late).lagTurns).toBeGreaterThan(0.3);
    expect(timingOf(steady).lagTurns).toBeLessThan(0.15);
    const { lagS, steadyLagS, lagTurns } = timingOf(late);
    expect(lagS).toBeGreaterThan(steadyLagS + 0.4 * lagTurns);
    const { shifts } = judgeShifts(late, late.commanded, []);
    expect(shifts.filter(({ outcome }) => outcome === 'clean').length).toBeGreaterThan(0.9 * shifts.length);
  });

  it('reads of a recorder that writes the gear with the row after it what that row shows: the chain may be there already', () => {
    const made = new MadeRide().pedal(30);
    // a sound shift shows in the row that names the gear or in the next, as the command fell within its second
    const afterS = (n: number): number => (n % 8 === 3 ? 2 : n % 2);
    for (let n = 0; n < 64; n++) made.shift(made.cog + (n % 2 === 0 ? 1 : -1), afterS(n)).pedal(14);
    const ride = judging(made);
    expect(timingOf(ride).lagS).toBeLessThan(-0.2);
    expect(timingOf(ride).lagS).toBeGreaterThan(-0.3);
    const { shifts } = judgeShifts(ride, ride.commanded, []);
    expect(shifts.map(({ outcome }) => outcome)).toEqual(shifts.map((_, n) => (afterS(n) === 2 ? 'late' : 'clean')));
  });

  it('leaves the lag open as far as too few shifts tell it', () => {
    const wanderings = (count: number): Judging => judging(new MadeRide().pedal(90).wander(count).pedal(60));
    const [one, few, many] = [1, 3, 40].map((count) => timingOf(wanderings(count)));
    expect(one.lagSpreadS).toBeGreaterThan(few.lagSpreadS);
    expect(few.lagSpreadS).toBeGreaterThan(many.lagSpreadS);
    expect(many.lagSpreadS).toBeLessThan(0.2);
    for (const { jitterS, lagSpreadS } of [one, few, many])
      expect(jitterS).toBeCloseTo(Math.hypot(0.25, lagSpreadS), 9);
  });

  it('calls no shift of a short ride late for a recorder that is', () => {
    const late = judging(new MadeRide().pedal(90).shift(3, 3).pedal(60).shift(5, 3).pedal(60));
    const { shifts } = judgeShifts(late, late.commanded, []);
    expect(shifts.map(({ outcome }) => outcome)).toEqual(shifts.map(() => 'clean'));
  });
});

describe('arrivalTable', () => {
  it('fits best at the moment at which the ratio changed', () => {
    for (const afterS of [1, 4]) {
      const made = judging(warmedUp().shift(3, afterS).pedal(20));
      const [table] = lastShift(made).tables;
      const row = table.stories[0].byArrival;
      expect(table.stories[0]).toMatchObject({ name: 'straight', finalCog: 3 });
      expect(row.length).toBe(ARRIVALS);
      const arrivalS = FIRST_ARRIVAL_S + row.indexOf(Math.max(...row)) * ARRIVAL_STEP_S;
      expect(Math.abs(arrivalS - (afterS - 0.5))).toBeLessThanOrEqual(0.75);
      expect(Math.max(...row) - table.stay).toBeGreaterThan(5);
      for (const { finalCog, byArrival } of table.stories)
        if (finalCog !== 3) expect(Math.max(...byArrival)).toBeLessThan(Math.max(...row));
      expect(table.seen).toBeGreaterThanOrEqual(10);
    }
  });

  it('fits staying best where the chain stayed', () => {
    const [table] = lastShift(judging(warmedUp().command(3).pedal(20))).tables;
    for (const { name, byArrival } of table.stories)
      if (name === 'stayed') expect(new Set(byArrival)).toEqual(new Set([table.stay]));
      else expect(table.stay).toBeGreaterThan(byArrival[4] + 5);
  });

  it('sees nothing while the rider coasts, and throws without a gear model', () => {
    const made = judging(warmedUp().command(3).coast(20));
    const [table] = lastShift(made).tables;
    expect(table.seen).toBe(0);
    const bare = madeLog({ speedMps: [5], cadenceRpm: [80] });
    const trace = traceGears(bare, madeBike);
    expect(() =>
      arrivalTable({ ...rideInQuestion(bare, trace), clock: made.clock }, table.shift, table.context, 0.4),
    ).toThrow(TypeError);
  });
});

describe('shiftContexts', () => {
  it('weigh 1 together, and know the shifts just before and after', () => {
    const ride = warmedUp();
    const { cog } = ride;
    ride
      .shift(cog + 1)
      .pedal(3)
      .shift(cog + 2)
      .pedal(3)
      .shift(cog + 3)
      .pedal(20);
    const made = judging(ride);
    made.commanded.forEach(({ toCog }, j) => {
      const contexts = shiftContexts(made, made.commanded, j, 0.25);
      const over = Math.max(...contexts.map(({ startCog }) => Math.abs(toCog - startCog)));
      for (const { mostCogs } of contexts) expect(mostCogs).toBe(over);
      expect(contexts.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    });
    const middle = shiftContexts(made, made.commanded, made.commanded.length - 2, 0.25);
    expect(middle.every(({ after }) => after?.cog === cog + 3)).toBe(true);
    const [alone] = shiftContexts(made, made.commanded, 5, 0.25);
    expect([alone.before, alone.after, alone.weight]).toEqual([null, null, 1]);
    expect(alone.startCog).toBe(made.commanded[5].fromCog);
  });
});

describe('shiftStories and revolutionsLikelihood', () => {
  it('put the likeliest number of turns where the chain moved', () => {
    // at about 80 rpm three more seconds are four turns
    const made = judging(warmedUp().shift(3, 4).pedal(20));
    const { tables, timing } = lastShift(made);
    const revs = revolutionsLikelihood(tables[0].stories[0].byArrival, tables[0], timing, made.clock);
    expect(revs.length).toBe(REVS);
    const likeliest = (revs.indexOf(Math.max(...revs)) + 0.5) * REV_STEP;
    expect(Math.abs(likeliest - 4)).toBeLessThan(1.2);
  });

  it('tell a shift that was done from one that was not', () => {
    const storyOf = (ride: MadeRide) => {
      const made = judging(ride);
      const { tables, timing } = lastShift(made);
      return shiftStories(tables, timing, made.clock);
    };
    const done = storyOf(warmedUp().shift(3).pedal(20));
    const not = storyOf(warmedUp().command(3).pedal(20));
    const beyond = storyOf(warmedUp().command(3).pedal(1).move(4).pedal(20));
    const likelihood = ({ stories }: ShiftStories, name: StoryName): number =>
      stories.find((story) => story.name === name)?.byTurns.reduce((a, b) => a + b, 0) ?? 0;
    const ofNames = (story: ShiftStories, names: StoryName[]) => names.map((name) => likelihood(story, name));
    const arrived: StoryName[] = ['straight', 'straight-late', 'straight-very-late'];
    expect(likelihood(done, 'straight')).toBeGreaterThan(100 * likelihood(done, 'stayed'));
    expect(likelihood(not, 'stayed')).toBeGreaterThan(100 * Math.max(...ofNames(not, arrived.slice(0, 2))));
    expect(likelihood(beyond, 'went-beyond')).toBeGreaterThan(
      100 * Math.max(...ofNames(beyond, [...arrived, 'stayed'])),
    );
    expect(done.alreadyThere).toBe(false);
    expect(done.stepsPedalled).toBeGreaterThan(5 / REV_STEP);
  });

  it('know a chain that was already there', () => {
    const made = judging(warmedUp().command(3).pedal(20).command(2).pedal(20));
    const { tables, timing } = lastShift(made);
    const { alreadyThere, stories } = shiftStories(tables, timing, made.clock);
    expect(alreadyThere).toBe(true);
    expect(stories.map(({ name }) => name)).not.toContain('stayed');
  });
});
