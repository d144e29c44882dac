import { describe, expect, it } from 'vitest';
import { haltAfter } from '../../src/shifts/drops/halt-after.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

const rolling = (seconds: number): number[] => Array(seconds).fill(5);
const log = (speedMps: number[], timeS?: number[]) => ({
  ...madeLog({ speedMps, cadenceRpm: speedMps.map(() => 0) }),
  timeS: Float64Array.from(timeS ?? speedMps.keys()),
});

describe('haltAfter', () => {
  it('finds the first halt that lasts, and how long it takes until then', () => {
    const ride = log([...rolling(4), 0, 0, 5, 5, ...Array(20).fill(0), ...rolling(9)]);
    expect(haltAfter(ride, 0, 30, 15)).toEqual({ inS: 8, lastsS: 20 });
    expect(haltAfter(ride, 0, 30, 25)).toEqual({ inS: Number.POSITIVE_INFINITY, lastsS: 0 });
    expect(haltAfter(ride, 0, 5, 15)).toEqual({ inS: Number.POSITIVE_INFINITY, lastsS: 0 });
  });

  it.each([40, 180, 3600])('takes a recording pause of %i s for one, however long', (pauseS) => {
    const timeS = [...Array(10).keys(), ...[0, 1, 2].map((s) => 9 + pauseS + s)];
    expect(haltAfter(log(rolling(13), timeS), 0, 45, 15)).toEqual({ inS: 9, lastsS: pauseS });
  });

  it('takes none that ended with the record it looks from', () => {
    const timeS = [...Array(10).keys(), ...Array.from({ length: 60 }, (_, s) => 99 + s)];
    const ride = log(rolling(70), timeS);
    expect(haltAfter(ride, 9, 45, 15)).toEqual({ inS: 0, lastsS: 90 });
    expect(haltAfter(ride, 10, 45, 15)).toEqual({ inS: Number.POSITIVE_INFINITY, lastsS: 0 });
  });

  it('takes the end of the ride for one', () => {
    expect(haltAfter(log(rolling(10)), 2, 45, 15)).toEqual({ inS: 7, lastsS: Number.POSITIVE_INFINITY });
  });

  it('takes no crawl for one whose rider works by the power meter', () => {
    const ride = log([...rolling(4), ...Array(40).fill(0.8), ...rolling(9)]);
    const none = { inS: Number.POSITIVE_INFINITY, lastsS: 0 };
    const watts = (during: number): typeof ride => ({
      ...ride,
      powerW: Float64Array.from(ride.timeS, (t) => (t >= 4 && t < 44 ? during : 150)),
    });
    expect(haltAfter(watts(120), 0, 30, 15)).toEqual(none);
    for (const idle of [0, Number.NaN]) expect(haltAfter(watts(idle), 0, 30, 15)).toEqual({ inS: 4, lastsS: 40 });
  });
});
