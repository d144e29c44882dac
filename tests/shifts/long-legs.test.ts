import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { askedShifts } from '../../src/shifts/drops/asked-shifts.ts';
import type { DropSign } from '../../src/shifts/drops/drop-candidate.ts';
import { haltsAtEnd } from '../../src/shifts/drops/halts-at-end.ts';
import { judgeRide } from '../../src/shifts/judge-ride.ts';
import { type MadeRide, madeBike } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

/** What follows a shift onto the smallest cog, until the bike stands for long. */
type Afterwards = (ride: MadeRide) => MadeRide;

/** The legs turn on at the pace they had while the bike rolls out, and show no power. */
const turnsInVain: Afterwards = (ride) => ride.spinInVain(9, 79).coast(3).brake(8, 0);
/** The legs turn on softly in front of the wheel's hub: slower than the gear. */
const turnsSoftly: Afterwards = (ride) => ride.move(0).followSoftly(9, 0.8, 10).coast(3).brake(8, 0);
const drivesOn: Afterwards = (ride) => ride.pedal(9).coast(3).brake(8, 0);

function shiftedTo(cog: number, afterwards: Afterwards, withPower = true) {
  const ride = at(1).pedal(12).command(cog);
  const askedS = ride.nowS;
  const full = afterwards(ride).stand(60).pedal(60).log();
  const log = withPower ? full : { ...full, powerW: full.powerW.map(() => Number.NaN) };
  return { askedS, log, trace: traceGears(log, ride.bike) };
}

describe('a halt after a shift, the legs turning on for longer than a sensor holds its reading', () => {
  const halted = (afterwards: Afterwards, { cog = 0, withPower = true } = {}): boolean => {
    const { askedS, log, trace } = shiftedTo(cog, afterwards, withPower);
    return askedShifts(log, trace).find((shift) => shift.askedS === askedS)?.halted !== null;
  };

  it.each([
    ['with a power meter', true],
    ['by the ratio alone', false],
  ])('counts where nothing shows that they drove the bike, %s', (_, withPower) => {
    expect(halted(turnsInVain, { withPower })).toBe(true);
    expect(halted(drivesOn, { withPower })).toBe(false);
  });

  it('does not count where a power meter shows that the legs worked for seconds before they stopped', () => {
    const works =
      (powerW: number): Afterwards =>
      (ride) =>
        ride.pedal(1).move(0).pedal(5, { powerW }).coast(3).brake(8, 0);
    expect([halted(works(200)), halted(works(5))]).toEqual([false, true]);
  });

  it('does not count after a shift to a larger cog: riders go there before a stop', () => {
    expect(halted(turnsInVain, { cog: 2 })).toBe(false);
  });
});

describe('legs that turn in vain before a halt', () => {
  const vain = (afterwards: Afterwards): number | undefined => {
    const { askedS, log, trace } = shiftedTo(0, afterwards, false);
    const found = haltsAtEnd(log, trace).find(({ start }) => Math.abs(log.timeS[start] - askedS) < 1);
    return found?.signs.find(({ sign }) => sign === ('turned-in-vain' satisfies DropSign))?.value;
  };

  it('are counted for as long as they outrun the gear, and softly turning ones are not', () => {
    expect(vain(turnsInVain)).toBeGreaterThanOrEqual(3);
    expect(vain((ride) => ride.move(0).followSoftly(5, 0.8, 10).coast(3).brake(8, 0))).toBe(0);
  });

  it.each([true, false])('tell a lost chain by themselves, power measured: %s', (withPower) => {
    const { askedS, log, trace } = shiftedTo(0, turnsInVain, withPower);
    const { chainDrops } = judgeRide(log, trace, madeBike.cassette.length).events;
    expect(chainDrops.map(({ timeS, side }) => [Math.abs(timeS - askedS) <= 6, side])).toEqual([
      [true, 'past-smallest'],
    ]);
  });

  it.each([true, false])('are not seen where they turn softly or drive, power measured: %s', (withPower) => {
    for (const afterwards of [turnsSoftly, drivesOn]) {
      const { log, trace } = shiftedTo(0, afterwards, withPower);
      expect(judgeRide(log, trace, madeBike.cassette.length).events.chainDrops).toEqual([]);
    }
  });
});
