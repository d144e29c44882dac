import { describe, expect, it } from 'vitest';
import { setAsideUnmeasuredPower } from '../../src/ride-log/unmeasured-power.ts';

/** Stretches of one cadence and power, a record a second unless told otherwise. */
type Stretch = readonly [seconds: number, cadenceRpm: number, powerW: number];

function columns(stretches: readonly Stretch[], everyS = 1) {
  const rows = stretches.flatMap(([seconds, cadence, power]) =>
    Array.from({ length: seconds / everyS }, () => [cadence, power]),
  );
  return {
    timeS: Float64Array.from(rows, (_, i) => i * everyS),
    cadenceRpm: Float64Array.from(rows, ([cadence]) => cadence),
    powerW: Float64Array.from(rows, ([, power]) => power),
  };
}

/** Seconds set aside, and the stretches of power that are left as [first record, last record]. */
function left(stretches: readonly Stretch[], everyS?: number): { setAsideS: number; known: number[][] } {
  const ride = columns(stretches, everyS);
  const setAsideS = setAsideUnmeasuredPower(ride);
  const known: number[][] = [];
  ride.powerW.forEach((power, i) => {
    if (Number.isNaN(power)) return;
    if (known.at(-1)?.[1] === i - 1) known[known.length - 1][1] = i;
    else known.push([i, i]);
  });
  return { setAsideS, known };
}

describe('a meter that writes zeros while the legs turn for minutes', () => {
  it('measured nothing in a whole ride', () => {
    expect(left([[600, 80, 0]])).toEqual({ setAsideS: 600, known: [] });
  });

  it('measured until it fell silent, and again once it came back', () => {
    const ride: Stretch[] = [
      [300, 80, 200],
      [400, 80, 0],
      [300, 80, 200],
    ];
    const { setAsideS, known } = left(ride);
    expect(setAsideS).toBe(400);
    expect(known).toEqual([
      [0, 299],
      [700, 999],
    ]);
  });

  it('takes in the standing legs within and at both ends, and counts only the turning ones', () => {
    const ride: Stretch[] = [
      [100, 80, 200],
      [20, 0, 0],
      [100, 80, 0],
      [30, 0, 0],
      [100, 80, 0],
      [20, 0, 0],
      [100, 80, 200],
    ];
    expect(left(ride)).toEqual({
      setAsideS: 200,
      known: [
        [0, 99],
        [370, 469],
      ],
    });
  });

  it('may show a watt or two, or a single reading gone astray', () => {
    const ride: Stretch[] = [
      [200, 80, 2],
      [2, 80, 900],
      [200, 80, 0],
    ];
    expect(left(ride)).toEqual({ setAsideS: 402, known: [] });
  });

  it('is found in records that lie apart as well', () => {
    expect(left([[600, 80, 0]], 5).known).toEqual([]);
  });
});

describe('a meter that measured', () => {
  it('shows a rider who coasts, or spins along for a minute', () => {
    const ride: Stretch[] = [
      [60, 80, 200],
      [600, 0, 0],
      [60, 80, 200],
      [100, 60, 0],
      [60, 80, 200],
    ];
    expect(left(ride)).toEqual({ setAsideS: 0, known: [[0, 879]] });
  });

  it('shows soft pedalling time and again, and hard pedalling between', () => {
    const ride = Array.from({ length: 40 }, (): Stretch[] => [
      [60, 70, 0],
      [5, 80, 250],
    ]).flat();
    expect(left(ride).setAsideS).toBe(0);
  });

  it('is not blamed for a pause, in which nobody is known to have pedalled', () => {
    const ride = columns([[120, 80, 0]]);
    // ten minutes in a hut after the first minute
    for (let i = 60; i < 120; i++) ride.timeS[i] += 600;
    expect(setAsideUnmeasuredPower(ride)).toBe(0);
    expect([...ride.powerW].every((power) => power === 0)).toBe(true);
  });

  it('says nothing where it wrote nothing', () => {
    expect(left([[600, 80, Number.NaN]]).setAsideS).toBe(0);
  });
});
