import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/analyse.ts';
import type { Bike } from '../../../src/drivetrain/bike.ts';
import { cogOff } from '../../../src/report/held/cog-off.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { MadeRide, madeBike } from '../../gear-trace/made-ride.ts';

const bike: Bike = { ...madeBike, cassette: [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30] };

/** An hour's ride to and fro over the cassette with the chain so many cogs from the one asked for. */
function ridden(day: number, off: number, wheel = 1): RideLog {
  const ride = new MadeRide(bike, 0.004, day);
  const last = bike.cassette.length - 1;
  const on = (cog: number): number => Math.min(Math.max(cog + off, 0), last);
  ride.move(on(4));
  const way = [...Array(40).keys()].map((n) => last - Math.abs(((n + 5) % (2 * last)) - last));
  for (const cog of way) ride.command(cog).pedal(1).move(on(cog)).pedal(20).pedal(12, { cadenceRpm: 95 });
  const log = ride.log({ file: `day-${day}.fit`, startMs: Date.parse(`2026-05-0${day}T08:00:00Z`) });
  return { ...log, speedMps: log.speedMps.map((speed) => speed * wheel) };
}

const report = (logs: readonly RideLog[], on = bike) => analyse(logs, { bike: on, adjustments: [] });
const codes = ({ warnings }: { readonly warnings: readonly { readonly code: string }[] }): string[] =>
  warnings.map(({ code }) => code);
const judged = ({ cogs }: ReturnType<typeof report>): number => cogs.reduce((sum, { shifts }) => sum + shifts, 0);

describe('a chain that stands a cog from the one asked for', () => {
  it.each([
    ['smaller', -1, 'clamp'],
    ['larger', 1, 'clamped too tight'],
  ] as const)('is not taken for another wheel and a limit screw: one %s', (size, off, look) => {
    const { diagnosis, rides, ...rest } = report([ridden(1, 0), ridden(2, off), ridden(3, off)]);
    expect(rides.map(codes)).toEqual([[], ['one-cog-off'], ['one-cog-off']]);
    expect(rides[1].warnings[0].message).toContain(`one cog ${size} than the one asked for`);
    const { heldBack, suggestion, causes, weighed } = diagnosis;
    expect(heldBack?.code).toBe('one-cog-off');
    expect(heldBack?.sentence).toContain(`Since the ride of 2026-05-02 the chain stands one cog ${size}`);
    expect(suggestion).toMatchObject({ namesCause: false, parameter: 'none' });
    expect(suggestion.action).toMatch(/^Turn no limit screw/);
    expect(suggestion.action).toContain(look);
    expect(suggestion.cautions[0]).toContain(`Keep off the ${off < 0 ? 'smallest' : 'largest'} cog`);
    expect(weighed.judgedShifts).toBe(0);
    expect(Math.max(...causes.map(({ probability }) => probability))).toBeLessThan(0.5);
    // the ride before is still tallied
    expect(judged({ diagnosis, rides, ...rest })).toBe(judged(report([ridden(1, 0)])));
  });

  it('is told by the wheel of the bike file alone, and by that of other rides where it names none', () => {
    expect(report([ridden(1, -1)]).diagnosis.heldBack?.code).toBe('one-cog-off');
    const unwritten = { ...bike, rolloutMm: undefined };
    expect(report([ridden(1, 0), ridden(2, -1)], unwritten).diagnosis.heldBack?.code).toBe('one-cog-off');
    expect(report([ridden(2, -1)], unwritten).diagnosis.heldBack).toBeNull();
  });

  it('holds nothing back once newer rides are right, but its own shifts', () => {
    const { diagnosis, rides } = report([ridden(1, -1), ridden(2, 0)]);
    expect(rides.map(codes)).toEqual([['one-cog-off'], []]);
    expect(diagnosis.heldBack).toBeNull();
    expect(diagnosis.weighed.rides).toBe(1);
    expect(diagnosis.notes).toContainEqual(expect.stringContaining('The shifts of day-1.fit are not weighed'));
  });

  it('is no wheel that is larger by as much', () => {
    const { diagnosis, rides } = report([ridden(1, 0), ridden(2, 0, 1.106)]);
    expect(rides.map(codes)).toEqual([[], ['rollout-differs']]);
    expect(diagnosis.heldBack).toBeNull();
    expect(diagnosis.weighed.rides).toBe(2);
  });

  it('must fit much better than the cogs asked for, and on the bike’s own wheel', () => {
    const fits = (asked: number, smaller: number, rolloutMm: number) => ({
      cogsOff: [
        { cogs: 0, rolloutMm: 2330, misfit: asked },
        { cogs: -1, rolloutMm, misfit: smaller },
      ] as const,
    });
    const found = (...args: Parameters<typeof fits>) => cogOff([fits(...args) as never], bike, 'given')[0];
    expect(found(0.02, 0.004, 2105)).toEqual({ cogs: -1, rolloutMm: 2105, askedRolloutMm: 2330 });
    expect(found(0.007, 0.004, 2105)).toBeNull();
    expect(found(0.04, 0.015, 2105)).toBeNull();
    expect(found(0.02, 0.004, 2180)).toBeNull();
  });
});
