import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { MadeRide } from '../gear-trace/made-ride.ts';
import { addRecords, dropRecords, usualTeeth } from './planted/gear-record-edits.ts';
import { plantChainDrops } from './planted/plant-chain-drops.ts';
import { plantGhostShifts } from './planted/plant-ghost-shifts.ts';
import { plantMissedShifts } from './planted/plant-missed-shifts.ts';
import { noRecordWithin, pedalledFirmly } from './planted/steady-pedalling.ts';

const ride = new MadeRide().pedal(60);
for (let n = 0; n < 60; n++) ride.shift(ride.cog + (n % 2 === 0 ? 1 : -1)).pedal(20 + 5 * (n % 5));
for (let n = 0; n < 6; n++) ride.shift(ride.cog + 1 - 2 * (n % 2)).pedal(110);
const log = ride.log();

describe('gear record edits', () => {
  it('add and take out whole rows, by time', () => {
    const before = log.gearRecords;
    const added = addRecords(before, [{ timeS: 61.5, like: 1, rearPosition: 3, rearTeeth: 26 }]);
    const at = added.timeS.indexOf(61.5);
    expect(added.timeS.length).toBe(before.timeS.length + 1);
    expect([added.rearPosition[at], added.rearTeeth[at], added.frontTeeth[at]]).toEqual([3, 26, 40]);
    expect(added.timeS.every((t, i) => i === 0 || t >= added.timeS[i - 1])).toBe(true);
    expect(dropRecords(added, new Set([at]))).toEqual(before);
    expect(usualTeeth(before).get(5)).toBe(20);
  });
});

describe('plantMissedShifts', () => {
  const { log: changed, planted } = plantMissedShifts(log, 4, seededRandom(1, 'missed'));

  it('adds a command and its taking back, amid firm pedalling, and touches nothing else', () => {
    expect(planted.length).toBeGreaterThan(0);
    expect(changed.gearRecords.timeS.length).toBe(log.gearRecords.timeS.length + 2 * planted.length);
    expect(changed.speedMps).toBe(log.speedMps);
    for (const { timeS, backS } of planted) {
      expect(backS - timeS).toBeGreaterThanOrEqual(8);
      expect(pedalledFirmly(log, timeS - 8, backS + 8)).toBe(true);
      expect(noRecordWithin(log.gearRecords, timeS - 8, backS + 8)).toBe(true);
      const { timeS: times, rearPosition } = changed.gearRecords;
      const at = times.indexOf(timeS);
      expect(Math.abs(rearPosition[at] - rearPosition[at - 1])).toBe(1);
      expect([times[at + 1], rearPosition[at + 1]]).toEqual([backS, rearPosition[at - 1]]);
    }
  });

  it('does the same for the same seed', () => {
    expect(plantMissedShifts(log, 4, seededRandom(1, 'missed')).planted).toEqual(planted);
  });
});

describe('plantGhostShifts', () => {
  const { log: changed, planted } = plantGhostShifts(log, 5, seededRandom(1, 'ghosts'));

  it('takes out pairs that the chain followed, so that records before and after name one cog', () => {
    expect(planted.length).toBe(5);
    expect(changed.gearRecords.timeS.length).toBe(log.gearRecords.timeS.length - 10);
    for (const { timeS, heldS } of planted) {
      expect(log.gearRecords.timeS).toContain(timeS);
      expect(changed.gearRecords.timeS).not.toContain(timeS);
      expect(changed.gearRecords.timeS).not.toContain(timeS + heldS);
      const during = ride.trueCog[timeS + heldS - 1];
      expect(during).not.toBe(ride.trueCog[timeS - 1]);
      expect(ride.trueCog[timeS + heldS + 3]).toBe(ride.trueCog[timeS - 1]);
    }
  });

  it('takes out none that the chain did not follow', () => {
    const deaf = new MadeRide().pedal(60);
    for (let n = 0; n < 10; n++)
      deaf
        .command(deaf.cog + 1)
        .pedal(20)
        .command(deaf.cog)
        .pedal(20);
    expect(plantGhostShifts(deaf.log(), 5, seededRandom(1, 'ghosts')).planted).toEqual([]);
  });
});

describe('plantChainDrops', () => {
  const { log: changed, planted } = plantChainDrops(log, 3, seededRandom(1, 'drops'));

  it('lets the legs run up, takes the power away and lets the speed sink', () => {
    expect(planted.length).toBeGreaterThan(0);
    for (const { timeS } of planted) {
      const at = changed.timeS.indexOf(timeS);
      expect(changed.cadenceRpm[at + 1]).toBeGreaterThan(1.15 * changed.cadenceRpm[at - 1]);
      expect(changed.powerW[at] + changed.powerW[at + 1]).toBe(0);
      expect(changed.speedMps[at + 1]).toBeLessThan(changed.speedMps[at - 1]);
    }
  });

  it('keeps time rising and the number of records, with the clock stopped at each halt', () => {
    expect(changed.timeS.length).toBe(log.timeS.length);
    expect(changed.timeS.every((t, i) => i === 0 || t > changed.timeS[i - 1])).toBe(true);
    const gaps = changed.timeS.filter((t, i) => i > 0 && t - changed.timeS[i - 1] >= 30).length;
    expect(gaps).toBe(planted.filter(({ stops }) => stops).length);
    expect(changed.gearRecords.timeS.every((t, i, all) => i === 0 || t >= all[i - 1])).toBe(true);
  });
});
