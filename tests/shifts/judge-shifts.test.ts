import { beforeAll, describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { type CommandedShift, commandedShifts } from '../../src/shifts/commands/commanded-shifts.ts';
import { judgeShifts } from '../../src/shifts/outcomes/judge-shifts.ts';
import type { ChainDropEvent, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { type RideInQuestion, rideInQuestion } from '../../src/shifts/ride-in-question.ts';
import { warmedUp } from './warmed-up.ts';

describe('a shift after which the chain came off', () => {
  // cog 2 to 3, done at once
  const made = warmedUp();
  const atS = made.nowS;
  const log = made.shift(3).pedal(20).log();
  let ride: RideInQuestion;
  let commanded: CommandedShift[];
  beforeAll(() => {
    const trace = traceGears(log, made.bike);
    ride = rideInQuestion(log, trace);
    commanded = commandedShifts(log, trace.commands, trace.samples, ride.clock);
  });
  const judged = (drop: Partial<ChainDropEvent> = {}): ShiftEvent => {
    const sure: ChainDropEvent = { timeS: atS + 3, side: 'unknown', afterShiftTo: 3, confidence: 0.95, ...drop };
    const found = judgeShifts(ride, commanded, [sure]).shifts.find(({ timeS }) => timeS === atS);
    if (!found) throw new Error(`no shift at ${atS} s`);
    return found;
  };

  it('was missed', () => {
    const shift = judged();
    expect(shift).toMatchObject({ outcome: 'missed', crankRevs: null });
    expect(shift.confidence).toBeCloseTo(0.76, 1);
  });

  it.each([0.3, 0.624, 0.7])('is named by what is left of its chances: drop %f', (confidence) => {
    const shift = judged({ confidence });
    const { outcome, probability, crankRevs } = shift;
    expect(outcome).toBe(probability.clean >= 0.5 ? 'clean' : 'missed');
    expect(shift.confidence).toBe(probability[outcome as 'clean']);
    expect(crankRevs === null).toBe(outcome === 'missed');
    expect(Object.values(probability).reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
  });

  it.each([
    ['long after it', { timeS: atS + 7 }],
    ['before it', { timeS: atS - 1 }],
    ['after a command for another cog', { afterShiftTo: 4 }],
    ['after none', { afterShiftTo: null }],
  ])('stays as it was where the chain came off %s', (_when, drop) => {
    expect(judged(drop)).toMatchObject({ outcome: 'clean' });
    expect(judged(drop).confidence).toBeGreaterThan(0.95);
  });
});

describe('a shift whose turns do not drive the wheel', () => {
  // the legs turn, softer than the wheel: nothing tells which cog the chain is on
  const softly = (seconds: number, comes: boolean) => {
    const made = warmedUp();
    const atS = made.nowS;
    const { cog } = made;
    made.command(cog + 1);
    if (comes) made.move(cog + 1);
    const log = made
      .followSoftly(seconds, 0.6, 0)
      .move(cog + 1)
      .pedal(20)
      .log();
    const found = analyseRide(log, made.bike).events.shifts.find(({ timeS }) => timeS === atS);
    if (!found) throw new Error(`no shift at ${atS} s`);
    return found;
  };

  it.each([true, false])('is left unjudged, whether the chain came (%s) or not', (comes) => {
    expect(softly(12, comes)).toMatchObject({ outcome: 'unjudged', unjudgedBecause: 'not-seen', crankRevs: null });
  });

  it('is judged where they drive it soon enough', () => {
    expect(softly(0, true)).toMatchObject({ outcome: 'clean' });
  });
});

describe('a shift after which the legs stood still at once', () => {
  const made = warmedUp();
  const atS = made.nowS;
  // asked for again before anything is pedalled
  const log = made.command(3).coast(8).command(4).coast(4).move(4).pedal(20).log();
  /** The same with sensors that show all `lateS` later than the gear records: the legs then seem to have gone on. */
  const outcomeWith = (lateS: number): unknown => {
    const { gearRecords } = log;
    const early = { ...gearRecords, timeS: gearRecords.timeS.map((timeS) => timeS - lateS) };
    const { shifts } = analyseRide({ ...log, gearRecords: early }, made.bike).events;
    const found = shifts.find(({ timeS }) => timeS === atS - lateS);
    return found && { outcome: found.outcome, because: found.unjudgedBecause };
  };

  it.each([0, 1, 3.5])('is left unjudged, also by sensors that show it %f s late', (lateS) => {
    expect(outcomeWith(lateS)).toEqual({ outcome: 'unjudged', because: 'no-pedalling' });
  });
});

describe('a shift of which a gap in the records hides all', () => {
  it('is left unjudged: nobody saw whether the cranks turned before the next', () => {
    const made = warmedUp().coast(4);
    const atS = made.nowS;
    const log = made.command(3).move(3).pedal(5).shift(4).pedal(20).log();
    const kept = [...log.timeS.keys()].filter((i) => log.timeS[i] < atS || log.timeS[i] > atS + 9);
    const { timeS, speedMps, cadenceRpm, powerW, distanceM } = log;
    const [t, v, c, w, d] = [timeS, speedMps, cadenceRpm, powerW, distanceM].map((column) =>
      Float64Array.from(kept, (i) => column[i]),
    );
    const gappy = { ...log, timeS: t, speedMps: v, cadenceRpm: c, powerW: w, distanceM: d };
    const outcome = ({ shifts }: { shifts: readonly ShiftEvent[] }): unknown =>
      shifts.find(({ timeS: at }) => at === atS)?.outcome;
    expect(outcome(analyseRide(log, made.bike).events)).toBe('clean');
    expect(outcome(analyseRide(gappy, made.bike).events)).toBe('unjudged');
  });
});

describe('a chain that leaves the commanded cog by itself after it had come', () => {
  const left = (staysS: number, to: number) => {
    const made = warmedUp();
    const atS = made.nowS;
    const { cog } = made;
    const log = made
      .shift(cog + 1)
      .pedal(staysS)
      .move(cog + 1 + to)
      .pedal(20)
      .log();
    const { shifts, ghostShifts } = analyseRide(log, made.bike).events;
    return {
      outcome: shifts.find(({ timeS }) => timeS === atS)?.outcome,
      ghosts: ghostShifts.map(({ fromCog, toCog }) => [fromCog - cog, toCog - cog]),
    };
  };

  it.each([1, -1])('has made a clean shift, and one that nobody asked for (%i)', (to) => {
    for (const staysS of [6, 7, 9]) expect(left(staysS, to)).toEqual({ outcome: 'clean', ghosts: [[1, 1 + to]] });
  });

  it('has overshot where it goes on at once', () => {
    expect(left(1, 1)).toEqual({ outcome: 'overshot', ghosts: [] });
  });
});

describe('a missed shift that is taken back', () => {
  it('asks nothing of the chain: clean in no turn, over no cog', () => {
    const made = warmedUp();
    const { cog } = made;
    const log = made
      .command(cog + 1)
      .pedal(20)
      .command(cog)
      .pedal(20)
      .log();
    const { shifts } = analyseRide(log, made.bike).events;
    expect(shifts.slice(-2)).toMatchObject([
      { outcome: 'missed', cogsToCross: 1 },
      { outcome: 'clean', cogsToCross: 0, crankRevs: 0 },
    ]);
    expect(shifts.slice(-2)[1].probability.late).toBe(0);
  });
});
