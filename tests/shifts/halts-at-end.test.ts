import { expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { haltsAtEnd } from '../../src/shifts/drops/halts-at-end.ts';
import { judgeRide } from '../../src/shifts/judge-ride.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';
import { keepingOneIn } from './keeping-one-in.ts';

const largest = madeBike.cassette.length - 1;

/** Seconds on the largest cog's ratio after it was asked for, as the halt that follows tells of them. */
function reached(
  afterwards: (ride: MadeRide) => MadeRide,
  edit: readonly (readonly [share: number, rpm: number])[] = [],
) {
  const ride = new MadeRide().pedal(30).wander(20);
  ride
    .command(largest - 1)
    .move(largest - 1)
    .pedal(40, { cadenceRpm: 70 });
  const askedS = ride.nowS;
  const log = afterwards(ride.command(largest)).brake(2, 0).stand(60).pedal(60).log();
  const from = log.timeS.findIndex((timeS) => timeS >= askedS);
  const speed = log.speedMps[from - 1];
  edit.forEach(([share, rpm], k) => {
    log.speedMps[from + k] = share * speed;
    log.cadenceRpm[from + k] = rpm;
  });
  const halt = haltsAtEnd(log, traceGears(log, ride.bike)).find(({ start }) => start === from);
  return halt?.signs.find(({ sign }) => sign === 'cog-reached')?.value;
}

it('counts the seconds for which the chain drove on the end cog before a halt', () => {
  expect(reached((ride) => ride.pedal(1).move(largest).pedal(3, { cadenceRpm: 70 }))).toBeGreaterThanOrEqual(2);
});

it('counts as many of them where a recorder writes one record in three', () => {
  const ride = new MadeRide().pedal(30).wander(20).command(1).move(1).pedal(42, { cadenceRpm: 70 });
  const askedS = ride.nowS;
  ride.command(0).move(0).pedal(4, { cadenceRpm: 70 }).brake(2, 0).stand(60).pedal(60);
  const log = keepingOneIn(3, ride.log());
  const halt = haltsAtEnd(log, traceGears(log, ride.bike)).find(({ start }) => log.timeS[start] === askedS);
  expect(halt?.signs.find(({ sign }) => sign === 'cog-reached')?.value).toBeGreaterThanOrEqual(3);
});

it('counts none of the command itself, nor of legs that run away while the bike slows down', () => {
  const runAway = [
    [0.97, 70],
    [0.55, 75],
    [0.05, 98],
  ] as const;
  expect(reached((ride) => ride.pedal(2), runAway)).toBe(0);
});

it('lists the shifts onto each end cog with what a halt that followed says of a lost chain, and counts those onto others', () => {
  const ride = new MadeRide().pedal(30).wander(20);
  const shift = (cog: number): number => {
    ride.command(cog).pedal(1).move(cog);
    return ride.nowS;
  };
  const largerStill = largest - 1;
  shift(largerStill);
  ride.pedal(20);
  const onS = shift(largest) - 1;
  ride.pedal(30);
  shift(largerStill);
  ride.pedal(20);
  const haltedS = shift(largest) - 1;
  const log = ride.pedal(1).brake(3, 0).stand(40).pedal(60).log();
  const { events } = judgeRide(log, traceGears(log, ride.bike), madeBike.cassette.length);
  const { ontoEnd, elsewhere } = events.promptHalts ?? { ontoEnd: [], elsewhere: null };
  const onto = ontoEnd.filter(({ end, timeS }) => end === 'largest' && timeS >= onS);
  expect(onto.map(({ timeS, haltLogOdds }) => [timeS, haltLogOdds === null])).toEqual([
    [onS, true],
    [haltedS, false],
  ]);
  expect(elsewhere?.largest.shifts).toBeGreaterThan(0);
  expect(elsewhere?.largest.halts).toBe(0);
});
