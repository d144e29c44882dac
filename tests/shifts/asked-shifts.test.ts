import { describe, expect, it } from 'vitest';
import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import { askedShifts } from '../../src/shifts/drops/asked-shifts.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

const SECONDS = 60;
const ASKED_S = 30;

/** The shifts asked for by such commands; the legs turn and drive in the seconds that `drives` names. */
function asked(timeS: readonly number[], cog: readonly number[], drives: (second: number) => boolean) {
  const seconds = Array.from({ length: SECONDS }, (_, second) => second);
  const log = madeLog({
    speedMps: seconds.map(() => 5),
    cadenceRpm: seconds.map((second) => (drives(second) ? 80 : 0)),
  });
  const driving = Float64Array.from(seconds, (second) => (drives(second) ? 1 : 0));
  const commands = { timeS: Float64Array.from(timeS), cog: Int8Array.from(cog) };
  const wholeSeconds = { ...log, gearRecords: { ...log.gearRecords, wholeSeconds: true } };
  return askedShifts(wholeSeconds, { commands, driving } as unknown as RideTrace).map((shift) => shift.cog);
}

describe('a shift asked for while the legs drove the bike', () => {
  it('is that of the last command of a burst', () => {
    expect(asked([0, ASKED_S, ASKED_S + 1], [3, 4, 5], () => true)).toEqual([5]);
    expect(asked([0, ASKED_S, ASKED_S + 2], [3, 4, 5], () => true)).toEqual([4, 5]);
  });

  it('is none where the rider coasted before', () => {
    const coasts = (second: number): boolean => second < ASKED_S - 5;
    expect(asked([0, ASKED_S], [3, 4], coasts)).toEqual([]);
    expect(asked([0, ASKED_S], [4, 3], coasts)).toEqual([]);
  });

  it('may be one with which the legs begin, to a harder gear alone', () => {
    const begins = (second: number): boolean => second >= ASKED_S;
    expect(asked([0, ASKED_S], [4, 3], begins)).toEqual([3]);
    expect(asked([0, ASKED_S], [3, 4], begins)).toEqual([]);
  });
});
