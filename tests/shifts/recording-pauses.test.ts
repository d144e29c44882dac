import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { askedShifts } from '../../src/shifts/drops/asked-shifts.ts';
import type { MadeRide } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';
import { withPauses } from './with-pauses.ts';

/** Four shifts onto the smallest cog and back, each answered well. */
function shiftedToSmallest(): { ride: MadeRide; shiftsS: number[] } {
  const ride = at(1);
  const shiftsS: number[] = [];
  for (let n = 0; n < 4; n++) {
    ride.pedal(25);
    shiftsS.push(ride.nowS);
    ride.shift(0).pedal(20).shift(1).pedal(20);
  }
  return { ride, shiftsS };
}

describe('a recording pause', () => {
  it.each([13, 30, 120])('of %i s before shifts onto the smallest cog is no halt after them', (pauseS) => {
    const { ride, shiftsS } = shiftedToSmallest();
    const { events } = analyseRide(withPauses(ride.log(), shiftsS, pauseS), ride.bike);
    expect(events.chainDrops).toEqual([]);
    expect(events.shifts.filter(({ toCog }) => toCog === 0).map(({ outcome }) => outcome)).not.toContain('missed');
  });

  it('right after legs that spun against nothing is the halt that follows them', () => {
    const ride = at(8).pedal(12).spinInVain(4, 116);
    const pausedS = ride.nowS;
    const log = ride.pedal(60).log();
    const drops = (ridden: RideLog) => analyseRide(ridden, ride.bike).events.chainDrops;
    const [{ signs = [] }] = drops(withPauses(log, [pausedS], 40));
    expect(signs.filter(({ sign }) => sign.startsWith('halt')).map(({ sign, value }) => [sign, value])).toEqual([
      ['halt-after', 0],
      ['halt-lasts', 41],
    ]);
  });

  it('right after a command leaves the shift out, for nobody saw what the legs did', () => {
    const { ride, shiftsS } = shiftedToSmallest();
    const log = ride.log();
    const asked = (pausedS: number): number => {
      const paused = withPauses(log, [pausedS], 60);
      const commandS = paused.gearRecords.timeS.map((timeS) => (timeS === pausedS + 60 ? pausedS - 0.5 : timeS));
      const ridden = { ...paused, gearRecords: { ...paused.gearRecords, timeS: commandS } };
      return askedShifts(ridden, traceGears(ridden, ride.bike)).filter(({ cog }) => cog === 0).length;
    };
    // the same pause a second later ends with no command, and leaves all four
    expect([asked(shiftsS[1]), asked(shiftsS[1] + 5)]).toEqual([3, 4]);
  });
});
