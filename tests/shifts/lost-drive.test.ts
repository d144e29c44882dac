import { describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { rideReport } from '../../src/report/ride-report.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { lostDrive } from '../../src/shifts/drops/lost-drive.ts';
import type { MadeRide } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

const analysed = (ride: MadeRide, changes: Partial<RideLog> = {}): AnalysedRide =>
  analyseRide(ride.log(changes), ride.bike);

/** The report's cog at each record, in teeth; null where it names none. */
function reportedTeeth(judged: AnalysedRide, { bike }: MadeRide): (number | null)[] {
  const { gears } = rideReport(judged, bike);
  const { timeS, startMs } = judged.log;
  return Array.from(timeS, (s) => gears.findLast((run) => Date.parse(run.at) <= startMs + s * 1000)?.teeth ?? null);
}

/** Shifts onto the largest cog, loses the chain there, halts, puts it back and rides on: with the seconds of each. */
function lostAtLargest(): { ride: MadeRide; lostS: number; backS: number } {
  const ride = at(7).pedal(12).command(8).pedal(2);
  const lostS = ride.nowS;
  ride.spinInVain(4, 116).coast(5).brake(4, 0).stand(40).move(8);
  return { ride, lostS, backS: ride.nowS };
}

const withoutPower = ({ timeS }: RideLog): Partial<RideLog> => ({
  powerW: new Float64Array(timeS.length).fill(Number.NaN),
});

it('tells no unasked shift where a lost chain is put back by hand on another cog', () => {
  const ride = at(7).pedal(20).shift(8).pedal(12);
  ride.spinInVain(4, 116).coast(5).brake(4, 0).stand(40).move(7).pedal(90);
  const { events } = analysed(ride);
  expect(events.chainDrops.length).toBe(1);
  expect(events.ghostShifts).toEqual([]);
});

describe('while drive is lost', () => {
  it.each(['with', 'without'])('the report names no cog, %s a power meter', (power) => {
    const { ride, lostS, backS } = lostAtLargest();
    ride.pedal(60);
    const judged = analysed(ride, power === 'with' ? {} : withoutPower(ride.log()));
    expect(judged.events.chainDrops.length).toBe(1);
    const teeth = reportedTeeth(judged, ride);
    // the sensors show the loss a second late, and the second before the legs run free may be half and half
    expect(teeth.slice(lostS + 2, backS)).toEqual(Array(backS - lostS - 2).fill(null));
    expect(teeth.slice(lostS - 8, lostS - 1)).not.toContain(null);
    expect(teeth.slice(backS + 1)).toEqual(Array(59).fill(34));
  });

  it('it ends where the chain drives again, though the bike never halted', () => {
    const ride = at(7).pedal(12).command(8).pedal(2);
    const lostS = ride.nowS;
    ride.spinInVain(5, 120).coast(4).spinInVain(3, 90);
    const backS = ride.nowS;
    ride.move(8).pedal(60);
    const judged = analysed(ride);
    expect(judged.events.chainDrops.length).toBe(1);
    const teeth = reportedTeeth(judged, ride);
    expect(teeth.slice(lostS + 2, backS)).toEqual(Array(backS - lostS - 2).fill(null));
    expect(teeth.slice(backS + 4)).toEqual(Array(56).fill(34));
  });

  it('cranks that are turned by hand at a halt do not end it', () => {
    const { ride, lostS, backS } = lostAtLargest();
    // a hand turns the cranks, the wheel held off the ground or the chain not on yet
    ride.coast(5, 40).stand(20).pedal(60);
    const teeth = reportedTeeth(analysed(ride), ride);
    expect(teeth.slice(lostS + 2, backS + 25)).toEqual(Array(backS + 23 - lostS).fill(null));
    expect(teeth.slice(backS + 27)).toEqual(Array(58).fill(34));
  });

  it('it lasts to the end where nobody rides on', () => {
    const { ride, lostS } = lostAtLargest();
    const judged = analysed(ride);
    expect(judged.lostDrive.map(({ end }) => end)).toEqual([ride.nowS]);
    expect(
      reportedTeeth(judged, ride)
        .slice(lostS + 2)
        .every((one) => one === null),
    ).toBe(true);
  });
});

describe('lostDrive', () => {
  const { ride } = lostAtLargest();
  const judged = analysed(ride.pedal(30));
  const [drop] = judged.events.chainDrops;
  const [{ start: dropAt }] = judged.lostDrive;

  /** The drive's loss where the trace named the cog of the drop for so many records before it. */
  const lostAfter = (records: number): number => {
    const cog = judged.trace.cog.slice();
    cog.fill(7, dropAt - 8, dropAt - records).fill(8, dropAt - records, dropAt + 1);
    return lostDrive(judged.log, { ...judged.trace, cog }, [{ ...drop, timeS: judged.log.timeS[dropAt] }])[0].start;
  };

  it('takes a single record on a cog right before a drop for legs that spun already', () => {
    expect(lostAfter(1)).toBe(dropAt - 1);
    expect(lostAfter(2)).toBe(dropAt);
    expect(lostAfter(0)).toBe(dropAt);
  });

  it('counts a drop within another’s spell once, and has nothing without drops', () => {
    const again = { ...drop, timeS: drop.timeS + 25 };
    expect(lostDrive(judged.log, judged.trace, [drop, again])).toEqual(judged.lostDrive);
    expect(lostDrive(judged.log, judged.trace, [])).toEqual([]);
  });
});
