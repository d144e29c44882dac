import { sum } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { ringAnswers } from '../../src/gear-trace/decoding/ring-answers.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';

/** What goes with a change of ring is looked at from so long before it to so long after, s. */
const ABOUT_S = 4;

const read = (name: string): RideLog => readRideLog(name, realRide(name));
const changesOfRing = ({ gearRecords: { frontTeeth } }: RideLog): number[] =>
  [...frontTeeth.keys()].filter((i) => i > 0 && frontTeeth[i] !== frontTeeth[i - 1]);

/** Hours in motion. */
const riddenH = ({ timeS, speedMps }: RideLog): number =>
  sum(timeS, (s, i) => (i > 0 && speedMps[i] > 1 ? Math.min(3, s - timeS[i - 1]) : 0)) / 3600;

/** By how many cogs each change of ring was taken back on the cassette; below 0: added to. */
function takenBack(log: RideLog): number[] {
  const { timeS, rearTeeth, frontTeeth } = log.gearRecords;
  const cassette = [...new Set(rearTeeth)].sort((a, b) => a - b);
  return changesOfRing(log).map((i) => {
    let [before, after] = [i - 1, i];
    while (before > 0 && timeS[i] - timeS[before] <= ABOUT_S) before--;
    while (after + 1 < timeS.length && timeS[after + 1] - timeS[i] <= ABOUT_S) after++;
    const cogs = cassette.indexOf(rearTeeth[after]) - cassette.indexOf(rearTeeth[before]);
    return frontTeeth[i] > frontTeeth[i - 1] ? cogs : -cogs;
  });
}

describe.skipIf(!haveRealRides)('changes of ring in real rides', () => {
  it.each(['gears-cadence-power-20h.fit', 'gears-cadence-wheel-sensor.fit'])(
    'come about three times an hour: %s',
    (name) => {
      const log = read(name);
      const anHour = changesOfRing(log).length / riddenH(log);
      expect(anHour).toBeGreaterThan(2.5);
      expect(anHour).toBeLessThan(4);
    },
  );

  it('are taken back in part on the cassette more often than not, as it is expected of them', () => {
    const cogs = takenBack(read('gears-cadence-power-20h.fit'));
    const share = (counts: (of: number) => boolean): number => cogs.filter(counts).length / cogs.length;
    expect(cogs.length).toBe(56);
    const middle = 6;
    const row = ringAnswers(13).toLargerRing.subarray(13 * middle, 13 * (middle + 1));
    expect(share((of) => of > 0)).toBeCloseTo(sum(row.subarray(middle + 1)), 1);
    expect(share((of) => of === 0)).toBeCloseTo(row[middle], 1);
    expect(share((of) => of > 0)).toBeGreaterThan(2 * share((of) => of < 0));
  });
});
