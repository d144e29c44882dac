import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { gearStates } from '../../src/gear-trace/decoding/gear-states.ts';
import { likeliestRing, recordedRing, ringUnrecorded } from '../../src/gear-trace/decoding/ring-by-commands.ts';
import { MadeRide, madeDoubleBike } from './made-ride.ts';
import { withoutFront } from './without-front.ts';

describe('ringUnrecorded', () => {
  const cog = Int8Array.of(3, 4);
  it.each([
    ['two rings of which no record tells', 2, Int8Array.of(-1, -1), true],
    ['one ring: there is nothing to tell', 1, Int8Array.of(0, 0), false],
    ['a ring that only a later record tells', 2, Int8Array.of(-1, 1), true],
    ['a ring that every record tells', 2, Int8Array.of(0, 1), false],
  ])('%s', (_, rings, ring, unrecorded) => {
    expect(ringUnrecorded({ cog, ring }, gearStates(rings, 9))).toBe(unrecorded);
  });

  it('asks for records that name a cog', () => {
    expect(ringUnrecorded({ cog: Int8Array.of(-1), ring: Int8Array.of(-1) }, gearStates(2, 9))).toBe(false);
  });
});

describe('recordedRing', () => {
  it('takes what was found only where the gear records do not tell', () => {
    const commands = { ring: Int8Array.of(-1, 1), latest: Int32Array.of(-1, 0, 0, 1, 1) };
    expect([...recordedRing(commands, Int8Array.of(0, 0, -1, 0, 0))]).toEqual([0, 0, -1, 1, 1]);
  });
});

describe('likeliestRing', () => {
  const states = gearStates(2, 2);
  it('sums a ring over its cogs, driving and freewheeling', () => {
    const record = Float32Array.of(0.1, 0.2, 0.1, 0.1, 0.2, 0.1, 0.1, 0.05, 0.05);
    expect([...likeliestRing(record, states)]).toEqual([0]);
  });
  it('names none that is not likelier than not', () => {
    expect([...likeliestRing(Float32Array.of(0.2, 0.2, 0.2, 0.2, 0, 0, 0, 0, 0.2), states)]).toEqual([-1]);
  });
});

describe('a change of ring that no record tells of', () => {
  /** Before each stop the rider goes two cogs larger and onto the big ring at once, by a sensor as noisy as a satellite's. */
  it('is seen where it goes with a shift of the cogs, and the shift is not taken for a missed one', () => {
    const ride = new MadeRide(madeDoubleBike, 0.02, 3).move(4, 0);
    const onBigRing: number[] = [];
    for (let stop = 0; stop < 8; stop++) {
      ride.wander(8);
      while (ride.cog > 3) ride.shift(ride.cog - 1).pedal(8);
      while (ride.cog < 3) ride.shift(ride.cog + 1).pedal(8);
      ride.command(5).pedal(1).move(5, 1);
      for (let s = 0; s < 5; s++) {
        if (s > 0) onBigRing.push(ride.nowS);
        ride.pedal(1);
      }
      ride.coast(4).stand(12).move(5, 0).pedal(10);
    }
    const { trace, events } = analyseRide(withoutFront(ride.log()), madeDoubleBike);
    expect(onBigRing.filter((t) => trace.ring[t] !== 1)).toEqual([]);
    expect(events.shifts.filter(({ outcome }) => outcome === 'missed' || outcome === 'late')).toEqual([]);
    expect(events.ghostShifts).toEqual([]);
  });
});
