import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { secondsEvidence } from '../../src/shifts/stories/seconds-evidence.ts';
import { madeBike, madeLog } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

describe('secondsEvidence', () => {
  const ride = at(4).pedal(30).coast(6, 45).pedal(20);
  const log = ride.log();
  const trace = traceGears(log, madeBike);
  const evidence = secondsEvidence(log, trace, 0.6);
  const level = (cog: number): number => Math.log(ride.developmentM(cog));

  it('speaks for the gear that is driven', () => {
    const second = log.timeS.length - 5;
    for (const other of [2, 3, 5, 6])
      expect(evidence(second, level(4))).toBeGreaterThan(evidence(second, level(other)) + 1);
  });

  it('lets a second without power lie above a gear, never below', () => {
    const second = log.powerW.findLastIndex((w, i) => w === 0 && log.cadenceRpm[i] === 45);
    const y = trace.logDevelopment[second];
    expect(evidence(second, y - 0.4)).toBeGreaterThan(evidence(second, y + 0.4) + 1);
  });

  it('takes a ratio that legs without power happen to show for hardly any sign of that gear, and one under power for a plain one', () => {
    const second = log.timeS.length - 5;
    const y = trace.logDevelopment[second];
    /** How much better the gear whose ratio is shown fits than a larger cog. */
    const ahead = (watts: number): number => {
      const powerW = log.powerW.map((own, i) => (i === second ? watts : own));
      const of = secondsEvidence({ ...log, powerW }, trace, 0.6);
      return of(second, y) - of(second, y - 0.3);
    };
    expect(ahead(0)).toBeLessThan(0.6);
    expect(ahead(5)).toBeGreaterThan(ahead(0));
    expect(ahead(30)).toBeGreaterThan(ahead(5));
    expect(ahead(200)).toBeGreaterThan(ahead(60));
    expect(ahead(200)).toBeGreaterThan(2);
  });

  it('lets a second in which the legs catch up with the wheel lie above a gear, under power too', () => {
    const second = log.timeS.length - 5;
    const y = trace.logDevelopment[second];
    const rpm = log.cadenceRpm[second];
    /** How well a gear below fits, against the one shown, when the record before held this cadence and log development. */
    const below = (rpmBefore: number, before: number): number => {
      const cadenceRpm = log.cadenceRpm.map((own, i) => (i === second - 1 ? rpmBefore : own));
      const logDevelopment = trace.logDevelopment.map((own, i) => (i === second - 1 ? before : own));
      const of = secondsEvidence({ ...log, cadenceRpm }, { ...trace, logDevelopment }, 0.6);
      return of(second, y - 0.4) - of(second, y);
    };
    const steady = below(rpm, y);
    expect(below(0.8 * rpm, y + 0.2)).toBeGreaterThan(steady + 0.5);
    expect(below(0, Number.NaN)).toBeGreaterThan(steady + 0.5);
    // a chain that rests on a cog while the rider gathers pace; a ratio that falls while the legs do not
    expect(below(0.8 * rpm, y)).toBe(steady);
    expect(below(rpm, y + 0.2)).toBe(steady);
  });

  it('says nothing where there is no ratio', () => {
    const bare = madeLog({ speedMps: [0, 0], cadenceRpm: [0, 0] });
    const nothing = secondsEvidence(bare, traceGears(bare, madeBike), 0.6);
    expect([nothing(0, 1), nothing(1, 2)]).toEqual([0, 0]);
  });
});
