import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { judgeRide } from '../../src/shifts/judge-ride.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';

const largest = madeBike.cassette.length - 1;

/** A ride up on the largest cog that stops there at once; `standing` tells what happens from then on. */
function dropsWhere(standing: (ride: MadeRide) => MadeRide, stopS = 2) {
  const ride = new MadeRide().pedal(30).wander(20);
  ride.command(largest).pedal(1).move(largest).pedal(40, { cadenceRpm: 62 });
  const stoppedS = ride.nowS;
  const log = standing(ride.brake(stopS, 0)).pedal(60).wander(10).log();
  const { chainDrops } = judgeRide(log, traceGears(log, ride.bike), madeBike.cassette.length).events;
  return chainDrops.map(({ timeS, side, confidence, signs }) => ({
    afterStopS: timeS - stoppedS,
    side,
    confidence,
    asked: signs?.find(({ sign }) => sign === 'asked-off-standing')?.value,
  }));
}

const shiftOn = (ride: MadeRide, cog: number): MadeRide => ride.command(cog).move(cog);

describe('a stop on the largest cog', () => {
  it('is of a chain lost past it where a smaller one is asked for while the bike stands', () => {
    const [drop, ...others] = dropsWhere((ride) => shiftOn(ride.stand(4), largest - 1).stand(40));
    expect(others).toEqual([]);
    expect(drop.side).toBe('past-largest');
    expect(drop.confidence).toBeGreaterThan(0.7);
    expect(Math.abs(drop.afterStopS)).toBeLessThanOrEqual(2);
    expect(drop.asked).toBeGreaterThanOrEqual(4);
    expect(drop.asked).toBeLessThanOrEqual(8);
  });

  it.each<[string, (ride: MadeRide) => MadeRide]>([
    ['nothing is asked for', (ride) => ride.stand(60)],
    ['it is asked for just before one rides on', (ride) => shiftOn(ride.stand(40), largest - 1).stand(3)],
    ['it is asked for after a rest', (ride) => shiftOn(ride.stand(40), largest - 1).stand(40)],
    ['the halt is hardly one', (ride) => shiftOn(ride.stand(3), largest - 1).stand(5)],
  ])('is no lost chain where %s', (_, standing) => {
    expect(dropsWhere(standing)).toEqual([]);
  });

  it('is none where the bike rolled on for long after the legs had stopped', () => {
    const rolls = (ride: MadeRide): MadeRide => shiftOn(ride.stand(3), largest - 1).stand(40);
    expect(dropsWhere(rolls, 30)).toEqual([]);
  });
});
