import { describe, expect, it } from 'vitest';
import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import { driveShown } from '../../src/shifts/drops/drive-shown.ts';
import { type RunSigns, runSigns } from '../../src/shifts/drops/run-signs.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

const RECORDS = 60;
const START = 20;
const LEVELS = [2, 1.8, 1.6];
const THRESHOLD = 0.07;

/**
 * A ride that drives at 5 m/s and 80 rpm on the middle gear. From record 20 on the legs spin for some records at 110 rpm on a ratio of no
 * gear, then stand, and the bike rolls out. The rest of what a search looks at is set by the case.
 */
function spun({ records = 5, recorded = true, powerGone = false, backAfterS = Number.POSITIVE_INFINITY } = {}) {
  const end = START + records;
  const phase = <Value>(before: Value, within: Value, after: Value): Value[] =>
    Array.from({ length: RECORDS }, (_, i) => (i < START ? before : i < end ? within : after));
  const log = madeLog({
    speedMps: Array.from({ length: RECORDS }, (_, i) => 5 - 0.05 * Math.max(0, i - START)),
    cadenceRpm: phase(80, 110, 0),
    powerW: powerGone ? phase<number>(180, 0, 0) : phase<number>(Number.NaN, Number.NaN, Number.NaN),
  });
  if (backAfterS < RECORDS) log.powerW.fill(180, end + backAfterS);
  const trace = {
    model: { rings: 1, cogs: 3, logDevelopment: Float64Array.from(LEVELS) },
    commands: { timeS: new Float64Array(recorded ? 1 : 0) },
    samples: { dtS: new Float64Array(RECORDS).fill(1) },
    logDevelopment: Float64Array.from(phase(1.8, 1.5, Number.NaN)),
    deviation: new Float64Array(RECORDS).fill(0.02),
    ring: new Int8Array(RECORDS),
    cog: new Int8Array(RECORDS).fill(1),
  };
  const signs = { spin: 0.3, depth: 0.3, promise: 1, lastedS: records, powerGone } as RunSigns;
  return { log, trace, signs, depths: phase(0, 0.3, 0), run: { start: START, end } };
}

type Spun = ReturnType<typeof spun>;
const search = ({ log, trace, depths }: Spun) => ({
  log,
  trace: trace as unknown as RideTrace,
  below: { depth: (i: number) => depths[i], sureDepth: (i: number) => depths[i], threshold: () => THRESHOLD },
});
const shownBy = (ride: Spun): string | null => driveShown(search(ride), ride.run, ride.signs);
const isShown = (ride: Spun): boolean => shownBy(ride) !== null;

describe('driveShown', () => {
  it.each([
    ['legs that spin for some seconds', {}],
    ['legs that spin for two, the power gone', { records: 2, powerGone: true }],
    ['the same, the power back after seconds', { records: 2, powerGone: true, backAfterS: 4 }],
    ['a single reading beside a gear record', { records: 1 }],
    ['a run of two without gear records', { records: 2, recorded: false }],
  ])('leaves %s in question', (_what, given) => {
    expect(isShown(spun(given))).toBe(false);
  });

  it('takes legs that turn on at the pace of before, for longer than any sensor holds a reading, for no driven ones', () => {
    const shownOf = (records: number, cadenceRpm: (i: number) => number): string | null => {
      const ride = spun({ records });
      ride.signs = { ...ride.signs, spin: 0 };
      for (let i = 0; i < records; i++) ride.log.cadenceRpm[START + i] = cadenceRpm(i);
      return shownBy(ride);
    };
    const turning = (i: number): number => 78 + (i % 3);
    expect(shownOf(8, turning)).toBeNull();
    expect(shownOf(6, turning)).toBe('legs-no-faster');
    expect(shownOf(8, () => 80)).toBe('legs-no-faster');
  });

  it('takes legs that show one cadence for longer than a sensor holds a reading for turning, where their power is gone', () => {
    const shownOf = (records: number): string | null => {
      const ride = spun({ records, powerGone: true });
      ride.signs = { ...ride.signs, spin: 0 };
      for (let i = 0; i < records; i++) ride.log.cadenceRpm[START + i] = 80;
      return shownBy(ride);
    };
    expect([shownOf(6), shownOf(8)]).toEqual(['legs-no-faster', null]);
  });

  const cases: readonly (readonly [string, string, Parameters<typeof spun>[0], (ride: Spun) => void])[] = [
    [
      'legs hardly faster than before',
      'legs-no-faster',
      {},
      (ride) => {
        ride.signs = { ...ride.signs, spin: 0.04 };
      },
    ],
    [
      'a cadence that the sensor merely holds, faster than that of some seconds ago though it is',
      'reading-held',
      {},
      ({ log }) => log.cadenceRpm.fill(109, START - 1, START),
    ],
    [
      'work done on such a ratio some seconds before: the speed is astray',
      'powered-below',
      { powerGone: true },
      ({ log, depths }) => {
        log.powerW.fill(180, START - 6, START - 5);
        depths[START - 6] = 0.3;
      },
    ],
    [
      'work done on it later than the first record',
      'powered-below',
      { powerGone: true },
      ({ log }) => log.powerW.fill(180, START + 1, START + 2),
    ],
    ['speed that a driven bike gains', 'gains-speed', {}, ({ log }) => log.speedMps.fill(6, START + 2, START + 4)],
    ['power right after', 'drive-follows', {}, ({ log }) => log.powerW.fill(180, START + 6, START + 7)],
    [
      'power soon after a run in only one record of which it was gone',
      'drive-follows',
      { records: 2, powerGone: true },
      ({ log }) => {
        log.powerW
          .fill(180, START, START + 1)
          .fill(0, START + 1, START + 5)
          .fill(180, START + 5, START + 9);
      },
    ],
    [
      'a run that rests on one gear',
      'rests-on-gear',
      {},
      ({ trace }) => trace.logDevelopment.fill(LEVELS[2] + 0.03, START, START + 4),
    ],
    [
      'a run that ends while the ratio rests on one gear',
      'rests-on-gear',
      {},
      ({ trace }) => trace.logDevelopment.fill(LEVELS[2], START + 2, START + 8),
    ],
    [
      'two sparse records that rest on one gear for some seconds',
      'rests-on-gear',
      { records: 2 },
      ({ log, trace }) => {
        for (let i = START + 1; i < log.timeS.length; i++) log.timeS[i] += 6;
        trace.logDevelopment.fill(LEVELS[2] + 0.03, START, START + 2);
      },
    ],
    [
      'the gear of before right after a run of a second',
      'back-on-gear',
      { records: 1 },
      ({ trace }) => trace.logDevelopment.fill(LEVELS[1], START + 1, START + 3),
    ],
    [
      'steady driving on another gear soon after a run of a second',
      'drives-on',
      { records: 1 },
      ({ trace }) => trace.logDevelopment.fill(LEVELS[0], START + 4, START + 9),
    ],
    ['a single reading without gear records', 'single-unrecorded', { records: 1, recorded: false }, () => {}],
  ];

  it.each(cases)('is told by %s', (_what, name, given, change) => {
    const ride = spun(given);
    change(ride);
    expect(shownBy(ride)).toBe(name);
  });

  it('is not told by work on a gear’s own ratio, or long before', () => {
    const worked = (atRecord: number, depth: number): boolean => {
      const ride = spun({ powerGone: true });
      ride.log.powerW.fill(180, atRecord, atRecord + 1);
      ride.depths[atRecord] = depth;
      return isShown(ride);
    };
    expect([worked(START - 6, 0), worked(START - 12, 0.3), worked(START, 0.3)]).toEqual([false, false, false]);
  });

  it('is not told by a run that rests on a gear with the power gone, or by a few of its records', () => {
    const resting = (records: number, powerGone: boolean): boolean => {
      const ride = spun({ powerGone });
      ride.trace.logDevelopment.fill(LEVELS[2], START, START + records);
      return isShown(ride);
    };
    expect([resting(5, false), resting(5, true), resting(3, false)]).toEqual([true, false, false]);
  });
});

describe('runSigns', () => {
  it('takes off what the ratio lay too low before, and sees no run that goes no further', () => {
    const depthOf = (before: number, within: number): number | undefined => {
      const ride = spun();
      ride.depths.fill(before, 0, START).fill(within, START, START + 5);
      return runSigns(search(ride), ride.run)?.depth;
    };
    expect(depthOf(0, 0.1)).toBeCloseTo(0.1, 12);
    expect(depthOf(-0.05, 0.1)).toBeCloseTo(0.1, 12);
    expect(depthOf(0.05, 0.2)).toBeCloseTo(0.15, 12);
    expect(depthOf(0.05, 0.1)).toBeUndefined();
  });

  it('is surer of legs that ran ahead where the ratio was right before than where it was half astray', () => {
    const sure = (before: number): boolean | undefined => {
      const ride = spun();
      ride.depths.fill(before, 0, START);
      return runSigns(search(ride), ride.run)?.sure;
    };
    expect([sure(0), sure(THRESHOLD * 0.4), sure(THRESHOLD * 0.8)]).toEqual([true, true, false]);
  });
});
