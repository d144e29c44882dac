import { describe, expect, it } from 'vitest';
import { risingCadence } from '../../src/gear-trace/samples/rising-cadence.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { MadeRide, madeBike } from './made-ride.ts';

/** A rolling ride that coasts for 6 s and pedals on, again and again, on one gear. */
function coastingRide(times = 14, pedalledS = 20) {
  const ride = new MadeRide().pedal(30).wander(20).pedal(15);
  for (let n = 0; n < times; n++) ride.coast(6).pedal(pedalledS);
  return ride.log();
}

/** The cadence as a sensor shows it that averages over so many records. */
const averaged = (cadenceRpm: Float64Array, over: number): Float64Array =>
  cadenceRpm.map((_, i) => {
    const last = cadenceRpm.subarray(Math.max(0, i - over + 1), i + 1);
    return last.reduce((sum, rpm) => sum + rpm, 0) / last.length;
  });
const spells = (marks: Uint8Array): number[] =>
  [...Array.from(marks).join('').matchAll(/1+/g)].map(([spell]) => spell.length);

describe('risingCadence', () => {
  it('marks nothing where the sensor shows the legs at once', () => {
    const log = coastingRide();
    expect(spells(risingCadence(log, log.cadenceRpm))).toEqual([]);
  });

  it('marks the seconds after each restart in which an averaging sensor is still low', () => {
    const log = coastingRide();
    const found = spells(risingCadence(log, averaged(log.cadenceRpm, 6)));
    expect(found.length).toBe(14);
    // six records hold all of the restart; the first of them lie below 30 rpm and are no pedalling
    for (const length of found) {
      expect(length).toBeGreaterThanOrEqual(3);
      expect(length).toBeLessThanOrEqual(5);
    }
  });

  it('needs no long spells of pedalling', () => {
    const log = coastingRide(14, 9);
    expect(spells(risingCadence(log, averaged(log.cadenceRpm, 5))).length).toBe(14);
  });

  it('says nothing of a sensor that was seen to restart a few times only', () => {
    const log = coastingRide(5);
    expect(spells(risingCadence(log, averaged(log.cadenceRpm, 6)))).toEqual([]);
  });

  it('keeps those seconds out of the ratios', () => {
    const log = coastingRide();
    const cadenceRpm = averaged(log.cadenceRpm, 6);
    const { samples } = traceGears({ ...log, cadenceRpm }, madeBike);
    expect(samples.rising.some((rising, i) => rising === 1 && samples.usable[i] === 1)).toBe(false);
    expect(samples.rising.includes(1)).toBe(true);
  });
});
