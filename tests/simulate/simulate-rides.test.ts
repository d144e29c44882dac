import { describe, expect, it } from 'vitest';
import { faultCauses } from '../../src/simulate/setting/fault-causes.ts';
import { SimulationOptionError } from '../../src/simulate/setting/option-error.ts';
import type { SimulationOptions } from '../../src/simulate/setting/simulation-options.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { truthSchema } from '../../src/simulate/truth/truth-schema.ts';

const short = (options: Partial<SimulationOptions> = {}) =>
  simulateRides({ cause: 'no-fault', seed: 5, durationS: 1500, formats: [], ...options });

describe('simulateRides', () => {
  it('gives the same bytes and truth for the same options, others for another seed', () => {
    const [first] = short({ formats: ['fit'] });
    const [again] = short({ formats: ['fit'] });
    const [other] = short({ formats: ['fit'], seed: 6 });
    expect(again.bytes.fit).toEqual(first.bytes.fit);
    expect(again.truth).toEqual(first.truth);
    expect(other.bytes.fit).not.toEqual(first.bytes.fit);
  });

  it('gives a log and a valid truth for every cause', () => {
    for (const cause of faultCauses) {
      const rides = short({ cause, severity: 'severe', rides: 2 });
      expect(rides).toHaveLength(2);
      for (const { log, truth } of rides) {
        expect(() => truthSchema.parse(truth)).not.toThrow();
        expect(truth.cause).toBe(cause);
        expect(truth.perSecond.cogTeeth).toHaveLength(1501);
        for (let i = 1; i < log.timeS.length; i++) expect(log.timeS[i]).toBeGreaterThan(log.timeS[i - 1]);
        for (const gear of truth.gears) if (gear.teeth !== null) expect(truth.bike.cassette).toContain(gear.teeth);
      }
    }
  });

  it('keeps truth and its parts in agreement', () => {
    for (const { truth } of short({ cause: 'cable-tension-low', severity: 'severe', durationS: 3600 })) {
      const cogAt = (timeS: number): number | null =>
        truth.gears.filter((gear) => gear.atS <= timeS).at(-1)?.teeth ?? null;
      truth.perSecond.cogTeeth.forEach((teeth, s) => {
        expect(teeth).toBe(cogAt(s));
      });
      for (const shift of truth.shifts) {
        expect(shift.direction).toBe(shift.toTeeth > shift.fromTeeth ? 'to-larger' : 'to-smaller');
        if (shift.outcome === 'clean') expect(shift.crankRevs as number).toBeLessThanOrEqual(1.5);
        if (shift.outcome === 'late') {
          expect(shift.crankRevs as number).toBeGreaterThan(1.5);
          expect(shift.crankRevs as number).toBeLessThanOrEqual(5);
        }
        if (shift.settledS !== null) expect(cogAt(shift.settledS + 0.002)).toBe(shift.toTeeth);
      }
      for (const ghost of truth.ghostShifts) {
        expect(cogAt(ghost.atS + 0.002)).toBe(ghost.toTeeth);
        expect(truth.commands.some((c) => c.atS <= ghost.atS && c.atS > ghost.atS - 5)).toBe(false);
        expect(ghost.heldS).toBeGreaterThan(1);
      }
    }
  });

  it('freewheels upward only: speed over cadence never stays below the gear while the crank turns', () => {
    const [{ log, truth }] = short({
      durationS: 3600,
      speedSource: 'wheel',
      sensorTroubles: false,
      recorderLagS: 0,
      noiseScale: 0,
    });
    let below = 0;
    let steady = 0;
    for (let i = 0; i < log.timeS.length; i++) {
      const s = log.timeS[i];
      const cogs = truth.perSecond.cogTeeth.slice(Math.max(0, s - 5), s + 1);
      if (new Set(cogs).size > 1 || cogs[0] === null || !(log.cadenceRpm[i] > 60) || !(log.speedMps[i] > 2)) continue;
      const gear = truth.perSecond.ringTeeth[s] / cogs[0];
      const ratio = log.speedMps[i] / (log.cadenceRpm[i] / 60) / (truth.bike.rolloutMm / 1000) / gear;
      steady++;
      if (ratio < 0.93) below++;
    }
    expect(steady).toBeGreaterThan(600);
    expect(below / steady).toBeLessThan(0.01);
  });

  it('leaves out what the device does not record', () => {
    const [{ log }] = short({ gearRecords: 'none', cadence: false, power: false });
    expect(log.gearRecords.timeS).toHaveLength(0);
    expect(log.cadenceRpm.every(Number.isNaN)).toBe(true);
    expect(log.powerW.every(Number.isNaN)).toBe(true);
    const [rearOnly] = short({ gearRecords: 'rear-only' });
    expect(rearOnly.log.gearRecords.frontTeeth.every((teeth) => teeth === 0)).toBe(true);
    expect(rearOnly.log.gearRecords.rearTeeth.every((teeth) => teeth > 0)).toBe(true);
  });

  it('records teeth as configured when told so, positions always right', () => {
    const [{ log, truth }] = short({ recordedTeeth: true });
    const { recordedCassette } = truth.recorder;
    expect(recordedCassette).not.toEqual(truth.bike.cassette);
    const { rearTeeth, rearPosition } = log.gearRecords;
    rearTeeth.forEach((teeth, i) => {
      expect(recordedCassette[recordedCassette.length - rearPosition[i]]).toBe(teeth);
    });
  });

  it('records gear times as whole seconds or exactly', () => {
    const whole = short()[0].log.gearRecords;
    expect(whole.wholeSeconds).toBe(true);
    expect(whole.timeS.every(Number.isInteger)).toBe(true);
    const exact = short({ gearTimes: 'exact' })[0].log.gearRecords;
    expect(exact.wholeSeconds).toBe(false);
    expect(exact.timeS.every(Number.isInteger)).toBe(false);
  });

  it('records unevenly and pauses when told so', () => {
    const gaps = (options: Partial<SimulationOptions>): number[] => {
      const { timeS } = short({ durationS: 3600, terrain: 'town', ...options })[0].log;
      return Array.from(timeS.subarray(1), (t, i) => t - timeS[i]).sort((a, b) => a - b);
    };
    const every = gaps({ autoPause: false });
    expect(every.at(-1)).toBe(1);
    expect(gaps({ autoPause: true }).at(-1)).toBeGreaterThan(5);
    const uneven = gaps({ autoPause: false, recording: 'uneven' });
    expect(uneven[uneven.length >> 1]).toBeGreaterThanOrEqual(1);
    expect(uneven.length).toBeLessThan(0.8 * every.length);
    expect(uneven.at(-1)).toBeLessThanOrEqual(7);
  });

  it('starts a sudden fault at its moment and lets a gradual one grow', () => {
    const sudden = short({ cause: 'hanger-bent', rides: 3, onset: { atRide: 1.5 } }).map((ride) => ride.truth);
    expect(sudden.map((truth) => truth.fault.fromS)).toEqual([null, 750, null]);
    expect(Math.abs(sudden[0].fault.size)).toBe(0);
    expect(sudden[2].fault.size).toBe(sudden[1].fault.size);
    const gradual = short({ cause: 'cable-friction', rides: 3, onset: 'gradual' }).map((ride) => ride.truth.fault.size);
    expect(gradual[0]).toBeLessThan(0.5 * gradual[1] + 0.2 * gradual[2]);
    expect(gradual[1]).toBeLessThan(gradual[2]);
  });

  it('lets the right work cure the bike and the wrong work not', () => {
    for (const cause of faultCauses.filter((name) => name !== 'no-fault' && name !== 'worn-drivetrain')) {
      const worst = (work: SimulationOptions['work']): number[] =>
        short({ cause, severity: 'severe', rides: 2, work, durationS: 300 }).map(({ truth }) => {
          const { condition } = truth;
          return cause.startsWith('pulley')
            ? Math.abs(condition.gapMm - 6.2)
            : cause === 'cable-friction'
              ? condition.frictionN
              : Math.max(
                  ...truth.lateralErrorMm.map(Math.abs),
                  Math.abs(condition.lowStopMm),
                  Math.abs(condition.highStopMm),
                );
        });
      const [before, cured] = worst('cure');
      expect(cured, cause).toBeLessThan(0.6 * before);
      const [, still] = worst('wrong');
      expect(still, cause).toBeGreaterThan(0.6 * before);
    }
  });

  it('lets a loose chain come off at the ring on rough ground', () => {
    const drops = [1, 2, 3, 4].flatMap((seed) =>
      short({ seed, looseChain: true, terrain: 'off-road', durationS: 3600 }).flatMap(({ truth }) => truth.chainDrops),
    );
    expect(drops.length).toBeGreaterThan(0);
    expect(drops.every((drop) => drop.side === 'chainring')).toBe(true);
  });

  it('rides any drivetrain: one to three rings, five to thirteen cogs, cable or servo', () => {
    for (const [chainrings, cassette, actuation] of [
      [[46], [14, 16, 18, 21, 24], 'cable'],
      [[34, 50], [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32], 'electronic'],
      [[22, 32, 44], [11, 13, 15, 17, 20, 23, 26, 30, 34], 'cable'],
      [[42], [10, 11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32, 36], 'electronic'],
    ] as const) {
      const bike = { name: 'Any', chainrings: [...chainrings], cassette: [...cassette], tyre: '40-622', actuation };
      const ringsRidden = new Set<number>();
      for (const cause of ['no-fault', 'hanger-bent', 'low-limit-loose'] as const) {
        const [{ log, truth }] = short({ bike, cause, severity: 'severe', terrain: 'hilly', durationS: 2700 });
        for (const ring of truth.perSecond.ringTeeth) ringsRidden.add(ring);
        expect(Math.max(...log.gearRecords.rearPosition)).toBeLessThanOrEqual(cassette.length);
        expect(Math.min(...log.gearRecords.rearPosition)).toBeGreaterThanOrEqual(1);
        expect(truth.shifts.length).toBeGreaterThan(10);
        if (cause !== 'no-fault') continue;
        const judged = truth.shifts.filter((shift) => shift.outcome !== 'unjudged');
        expect(judged.filter((shift) => shift.outcome === 'clean').length / judged.length).toBeGreaterThan(0.93);
      }
      for (const ring of ringsRidden) expect(chainrings).toContain(ring);
      if (chainrings.length > 1) expect(ringsRidden.size).toBeGreaterThan(1);
    }
  });

  it('refuses what it cannot simulate, naming the option', () => {
    for (const [option, value] of [
      ['cause', 'bad-luck'],
      ['seed', -1],
      ['seed', 1.5],
      ['severity', 2],
      ['durationS', 5],
      ['rides', 0],
      ['terrain', 'moon'],
      ['start', 'tomorrow'],
      ['formats', ['gpx']],
    ] as const)
      expect(() => short({ [option]: value } as Partial<SimulationOptions>)).toThrow(SimulationOptionError);
    const bike = { ...short()[0].truth.bike, name: 'Servo', actuation: 'electronic' as const };
    expect(() => short({ cause: 'cable-friction', bike })).toThrow(/cable/);
  });
});
