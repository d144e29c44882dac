import { describe, expect, it } from 'vitest';
import { companionKind } from '../../src/adjustments/companion-kind.ts';
import { sortFiles } from '../../web/add-rides/companion-files.ts';
import { bikeFileDoubt, knownBike } from '../../web/add-rides/known-bike.ts';
import type { Bike, BikeSummary } from '../../web/api/answers.ts';
import { takenAdjustments } from '../../web/words/taken-adjustments.ts';

const hut: Bike = { name: 'Hut bike', chainrings: [32], cassette: [11, 13, 15, 18, 21], actuation: 'cable' };
const here = (id: string, bike: Bike): BikeSummary => ({ id, bike }) as unknown as BikeSummary;

describe('what goes with rides', () => {
  it('is told by content, broken or not', () => {
    expect(companionKind(`\uFEFF ${JSON.stringify(hut)}`)).toBe('bike');
    expect(companionKind('{"name": "Hut bike", "chainrings": [32]')).toBe('bike');
    expect(companionKind('{"cassete": [11, 13], "actuation": "cable"}')).toBe('bike');
    expect(companionKind('\uFEFFat;parameter;amount;unit;note\n')).toBe('adjustments');
    expect(companionKind('[ {"at": "2026-05-01T10:00:00Z", "parameter": "chain"} ]')).toBe('adjustments');
    for (const other of [
      'time_s,speed_mps\n0,1',
      '{"features": []}',
      '[1, 2]',
      '[{"name": "x"}]',
      '<gpx/>',
      '',
      '{"a"',
    ])
      expect(companionKind(other), other).toBeNull();
  });

  it('is parted from the rides, each bike file with its bike or its fault', async () => {
    const good = new File([JSON.stringify(hut)], 'bike.json');
    const bad = new File(['{"chainrings": [32], "cassette": []}'], 'other.json');
    const ride = new File([new Uint8Array([14, 16, 0xff, 0xfe, 0x2e, 0x46])], 'ride.fit');
    const log = new File(['at,parameter,amount,unit,note\n'], 'adjustments.csv');
    const { rides, bikes, adjustments } = await sortFiles([ride, good, log, bad]);
    expect([rides, adjustments]).toEqual([[ride], [{ file: log, count: 0, fault: null }]]);
    expect(bikes[0]).toEqual({ file: 'bike.json', path: 'bike.json', bike: hut, fault: null });
    expect(bikes[1]).toMatchObject({ bike: null, fault: expect.stringMatching(/^other\.json: .*name.*cassette/) });
  });
});

describe('a file of adjustments', () => {
  const read = async (...rows: readonly string[]) => {
    const text = ['at,parameter,amount,unit,note', ...rows].join('\n');
    const { adjustments } = await sortFiles([new File([text], 'log.csv')]);
    return adjustments[0];
  };

  it('is read before it is sent: how much it holds, or what is wrong in which line', async () => {
    const good = '2026-04-12T18:30:00Z,cable-tension,2,clicks,';
    expect(await read(good, '2026-04-13T18:30:00Z,chain,,,')).toMatchObject({ count: 2, fault: null });
    expect(await read('2026-04-12 18:30,cable-tension,2,clicks,')).toMatchObject({
      count: null,
      fault: expect.stringMatching(/^log\.csv: .*line 2/),
    });
    expect(await read(`${good}"`)).toMatchObject({ count: null, fault: expect.stringContaining('log.csv') });
  });
});

describe('a bike file', () => {
  const other = { ...hut, cassette: [11, 13, 15, 18, 24] };

  it('is known by name and drivetrain together', () => {
    expect(knownBike(hut, [here('a', other), here('b', { ...hut, tyre: '57-622' })])?.id).toBe('b');
    expect(knownBike(hut, [here('a', other), here('b', { ...hut, name: 'Hut bike 2' })])).toBeUndefined();
  });

  it('says what it would do that nobody may want', () => {
    expect(bikeFileDoubt(hut, null, [here('b', { ...hut, name: 'Hut bike 2' })])).toBeNull();
    expect(bikeFileDoubt(hut, here('a', hut), [here('a', hut)])).toBeNull();
    expect(bikeFileDoubt(hut, here('a', other), [here('a', other)])).toMatch(/left out: everything goes to Hut bike/);
    expect(bikeFileDoubt(hut, null, [here('a', hut)])).toMatch(/here already; as chosen, this makes a second one/);
    expect(bikeFileDoubt(hut, null, [here('a', other)])).toMatch(/with another drivetrain/);
  });
});

it('says what an adjustments file brought', () => {
  expect(takenAdjustments({ added: 0, known: 0 })).toBe('It holds no adjustment.');
  expect(takenAdjustments({ added: 1, known: 0 })).toBe('1 adjustment taken in.');
  expect(takenAdjustments({ added: 2, known: 1 })).toBe('2 adjustments taken in, 1 was there already.');
  expect(takenAdjustments({ added: 0, known: 2 })).toBe('Nothing new: 2 were there already.');
});
