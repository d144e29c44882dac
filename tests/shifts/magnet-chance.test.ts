import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { magnetChance } from '../../src/shifts/turns/magnet-chance.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';

const SECONDS = 240;
const trulyRpm = (timeS: number): number => 42 + 6 * Math.sin(timeS / 7) + 3 * Math.sin(timeS / 1.9);

/** What a head shows each second of the last whole turn of a magnet, rounded. */
function magnetRpm(passesATurn: number): number[] {
  const passes: number[] = [];
  let turned = 0;
  for (let timeS = 0; timeS < SECONDS; timeS += 0.01) {
    const next = turned + (trulyRpm(timeS) / 60) * 0.01 * passesATurn;
    if (Math.floor(next) > Math.floor(turned)) passes.push(timeS);
    turned = next;
  }
  return Array.from({ length: SECONDS }, (_, timeS) => {
    const seen = passes.filter((pass) => pass <= timeS);
    return seen.length < 2 ? 0 : Math.round(60 / passesATurn / ((seen.at(-1) as number) - (seen.at(-2) as number)));
  });
}

const chance = (rpm: readonly number[]): number =>
  magnetChance({ timeS: Float64Array.from(rpm, (_, i) => i), cadenceRpm: Float64Array.from(rpm) });

describe('magnetChance', () => {
  it('knows a magnet that passes once a turn by its seconds without news', () => {
    expect(chance(magnetRpm(1))).toBeGreaterThan(0.9);
  });

  it('knows sensors that have news in every second: four passes a turn, or a scatter of their own', () => {
    const random = seededRandom(3, 'scatter');
    const scattered = Array.from({ length: SECONDS }, (_, t) => Math.round(trulyRpm(t) + 2 * random.normal()));
    expect(chance(magnetRpm(4))).toBeLessThan(0.1);
    expect(chance(scattered)).toBeLessThan(0.1);
  });

  it('is a half where nothing tells: no cadence that is slow enough, pauses between all records, no records', () => {
    const slow = magnetRpm(1);
    const sparse = magnetChance({
      timeS: Float64Array.from(slow, (_, i) => 3 * i),
      cadenceRpm: Float64Array.from(slow),
    });
    expect([chance(slow.map((rpm) => rpm + 60)), sparse, chance([])]).toEqual([0.5, 0.5, 0.5]);
  });

  it('is not surer by a long ride than by four minutes', () => {
    const long = Array.from({ length: 10 }, () => magnetRpm(4)).flat();
    expect(Math.abs(chance(long) - chance(magnetRpm(4)))).toBeLessThan(0.05);
  });
});

describe.skipIf(!haveRealRides)('the cadence of real rides', () => {
  it('has news in every second in the ride of 20 h, whose ratio follows a shift by no turn of the cranks', () => {
    const name = 'gears-cadence-power-20h.fit';
    expect(magnetChance(readRideLog(name, realRide(name)))).toBeLessThan(0.15);
  });

  it('comes once a turn in another, and in a third, with four minutes at such cadences, may or may not', () => {
    const of = (name: string): number => magnetChance(readRideLog(name, realRide(name)));
    expect(of('plain-b.fit')).toBeGreaterThan(0.9);
    expect(Math.abs(of('gears-cadence-wheel-sensor.fit') - 0.5)).toBeLessThan(0.2);
  });
});
