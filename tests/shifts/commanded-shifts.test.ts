import { describe, expect, it } from 'vitest';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { type CommandedShift, commandedShifts } from '../../src/shifts/commands/commanded-shifts.ts';
import { reactionShifts } from '../../src/shifts/commands/reaction-shifts.ts';
import { firstAfter } from '../../src/shifts/first-after.ts';
import { revolutionClock } from '../../src/shifts/turns/revolution-clock.ts';
import { gearRecords, madeBike, madeLog } from '../gear-trace/made-ride.ts';

/** Shifts of a ride of a minute at the given cadence, from [time, cog index] pairs; the first is the state at the start. */
function shiftsOf(
  commands: readonly (readonly [number, number])[],
  { wholeSeconds = true, cadenceRpm = Array<number>(60).fill(80) } = {},
): CommandedShift[] {
  const rows = commands.map(([timeS, cog]) => ({ timeS, rear: 9 - cog }));
  const log = madeLog({
    speedMps: cadenceRpm.map(() => 5),
    cadenceRpm,
    gearRecords: gearRecords(rows, wholeSeconds),
  });
  return commandedShifts(
    log,
    gearCommands(log, madeBike, pedallingSamples(log)),
    pedallingSamples(log),
    revolutionClock(log),
  );
}

/** Seconds pedalled after a shift, before the next one, where the records have these times and the cranks stand at some of them. */
function pedalledOf([fromS, untilS]: readonly [number, number], timeS: readonly number[], standingS: number[] = []) {
  const rows = [0, fromS, untilS].filter(Number.isFinite).map((atS, i) => ({ timeS: atS, rear: 5 - i }));
  const log = madeLog({
    timeS,
    speedMps: timeS.map(() => 5),
    cadenceRpm: timeS.map((s) => (standingS.includes(s) ? 0 : 80)),
    gearRecords: gearRecords(rows, false),
  });
  const samples = pedallingSamples(log);
  return commandedShifts(log, gearCommands(log, madeBike, samples), samples, revolutionClock(log))[0].pedalledS;
}

const moves = (shifts: readonly CommandedShift[]): number[][] => shifts.map((s) => [s.timeS, s.fromCog, s.toCog]);

describe('commandedShifts', () => {
  it('takes the first record as a state and records that change nothing as none', () => {
    expect(shiftsOf([[0, 4]])).toEqual([]);
    expect(
      moves(
        shiftsOf([
          [0, 4],
          [10, 4],
          [20, 5],
        ]),
      ),
    ).toEqual([[20, 4, 5]]);
  });

  it('leaves out what was asked for before the first record of the ride or after its last', () => {
    const asked = [
      [-20, 4],
      [-10, 5],
      [20, 6],
      [59, 5],
      [61, 4],
    ] as const;
    expect(moves(shiftsOf(asked))).toEqual([
      [20, 5, 6],
      [59, 6, 5],
    ]);
  });

  it('joins exact commands less than 1.2 s apart, and not at 1.2 s', () => {
    const exact = { wholeSeconds: false };
    const two = (at: number) =>
      shiftsOf(
        [
          [0, 4],
          [1.2, 5],
          [at, 6],
        ],
        exact,
      );
    expect(moves(two(2.39))).toEqual([[1.2, 4, 6]]);
    expect(moves(two(2.4))).toEqual([
      [1.2, 4, 5],
      [2.4, 5, 6],
    ]);
  });

  it('joins whole-second commands at 1 s, and not at 2 s', () => {
    expect(
      moves(
        shiftsOf([
          [0, 4],
          [10, 5],
          [11, 6],
          [12, 7],
        ]),
      ),
    ).toEqual([[10, 4, 7]]);
    expect(
      moves(
        shiftsOf([
          [0, 4],
          [10, 5],
          [12, 6],
        ]),
      ),
    ).toEqual([
      [10, 4, 5],
      [12, 5, 6],
    ]);
  });

  it('joins whole-second commands at 1 s also where they begin at a fraction of a second', () => {
    expect(2.7 - 1.7).toBeGreaterThan(1);
    expect(
      moves(
        shiftsOf([
          [0.7, 4],
          [1.7, 5],
          [2.7, 6],
          [4.7, 7],
        ]),
      ),
    ).toEqual([
      [1.7, 4, 6],
      [4.7, 6, 7],
    ]);
  });

  it('reckons from the first to the last of a burst, jumps within one record included', () => {
    const [shift] = shiftsOf([
      [0, 2],
      [10, 5],
      [11, 4],
    ]);
    expect(shift).toMatchObject({ timeS: 10, lastTimeS: 11, fromCog: 2, toCog: 4, direction: 'to-larger' });
    expect(
      shiftsOf([
        [0, 6],
        [10, 5],
      ])[0].direction,
    ).toBe('to-smaller');
  });

  it('takes a burst that comes back to where it began as no shift, yet as the end of the shift before', () => {
    const shifts = shiftsOf([
      [0, 4],
      [10, 5],
      [20, 6],
      [21, 5],
      [40, 6],
    ]);
    expect(moves(shifts)).toEqual([
      [10, 4, 5],
      [40, 5, 6],
    ]);
    expect(shifts[0].untilS).toBe(20);
    expect(shifts[1].quietS).toBe(19);
  });

  it('knows how long it was quiet before, and when the next shift came', () => {
    const [first, second] = shiftsOf([
      [0, 4],
      [10, 5],
      [30, 6],
    ]);
    expect([first.quietS, first.untilS]).toEqual([Number.POSITIVE_INFINITY, 30]);
    expect([second.quietS, second.untilS]).toEqual([20, Number.POSITIVE_INFINITY]);
  });

  it('counts the seconds pedalled before the next shift', () => {
    const coasting = Array.from({ length: 60 }, (_, i) => (i > 10 && i < 18 ? 0 : 80));
    const [first] = shiftsOf(
      [
        [0, 4],
        [10, 5],
        [20, 6],
      ],
      { cadenceRpm: coasting },
    );
    expect(first.pedalledS).toBe(3);
    const [steady] = shiftsOf([
      [0, 4],
      [10, 5],
      [20, 6],
    ]);
    expect(steady.pedalledS).toBe(10);
    const slow = Array<number>(60).fill(30);
    expect(
      shiftsOf(
        [
          [0, 4],
          [10, 5],
          [20, 6],
        ],
        { cadenceRpm: slow },
      )[0].pedalledS,
    ).toBe(0);
  });

  it.each([
    [10.05, 12.95, 1],
    [10.5, 12.5, 1],
    [10.2, 12.2, 1],
    [10, 12, 1],
    [10, 13.5, 0.5],
  ])('counts all seconds from %d to %d, between records too', (fromS, untilS, stepS) => {
    const timeS = Array.from({ length: 60 }, (_, i) => i * stepS);
    expect(pedalledOf([fromS, untilS], timeS)).toBe(Math.round((untilS - fromS) * 1000) / 1000);
  });

  it('counts no more than two seconds before a record, and none after the last', () => {
    const sparse = Array.from({ length: 12 }, (_, i) => i * 5);
    expect(pedalledOf([10.2, 14.9], sparse)).toBe(2);
    expect(pedalledOf([10.2, 11.7], sparse)).toBe(1.5);
    expect(pedalledOf([13.5, 18], sparse)).toBe(1.5 + 2);
    expect(pedalledOf([54, Number.POSITIVE_INFINITY], sparse)).toBe(1);
    // the cranks stand at the record after the next shift
    expect(pedalledOf([10.5, 12.5], [...Array(20).keys()], [13])).toBe(1.5);
  });

  it('sees no shift where the cog before is not known', () => {
    const log = madeLog({
      speedMps: Array(30).fill(5),
      cadenceRpm: Array(30).fill(80),
      gearRecords: gearRecords([{ timeS: 0 }, { timeS: 5, rear: 5 }, { timeS: 15, rear: 4 }]),
    });
    expect(
      moves(
        commandedShifts(
          log,
          gearCommands(log, madeBike, pedallingSamples(log)),
          pedallingSamples(log),
          revolutionClock(log),
        ),
      ),
    ).toEqual([[15, 4, 5]]);
  });
});

describe('firstAfter', () => {
  it('is the index of the first later time', () => {
    const times = Float64Array.of(1, 2, 2, 5);
    expect([0, 1, 1.5, 2, 4.9, 5, 9].map((t) => firstAfter(times, t))).toEqual([0, 1, 1, 3, 3, 4, 4]);
    expect(firstAfter(new Float64Array(), 3)).toBe(0);
  });
});

describe('reactionShifts', () => {
  const missedOf = (commands: readonly (readonly [number, number])[]): number[] =>
    reactionShifts(shiftsOf(commands), 'no-cadence').map(({ probability }) => probability.missed);

  it('judges nothing and calls everything weak', () => {
    for (const shift of reactionShifts(
      shiftsOf([
        [0, 4],
        [10, 5],
        [30, 6],
      ]),
      'no-drive-seen',
    )) {
      expect(shift).toMatchObject({
        outcome: 'unjudged',
        unjudgedBecause: 'no-drive-seen',
        crankRevs: null,
        weak: true,
      });
      expect(shift.torqueNm).toBeNaN();
      const { clean, late, missed, overshot } = shift.probability;
      expect(clean + late + missed + overshot).toBeCloseTo(1, 12);
      expect(missed).toBeLessThan(0.05);
    }
  });

  it('finds a second push and one back, and back and again, more telling than a plain series', () => {
    const [pushedAgain] = missedOf([
      [0, 4],
      [10, 5],
      [12, 6],
      [15, 5],
    ]);
    const [triedAgain] = missedOf([
      [0, 4],
      [10, 5],
      [13, 4],
      [16, 5],
    ]);
    const series = missedOf([
      [0, 2],
      [10, 3],
      [13, 4],
      [16, 5],
    ]);
    for (const reacted of [pushedAgain, triedAgain]) {
      expect(reacted).toBeGreaterThan(10 * Math.max(...series));
      expect(reacted).toBeLessThan(0.5);
    }
  });

  it('sees no reaction in what comes later than 5 s', () => {
    const [first] = missedOf([
      [0, 4],
      [10, 5],
      [17, 6],
      [24, 5],
    ]);
    expect(first).toBeLessThan(0.05);
  });
});
