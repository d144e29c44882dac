import { describe, expect, it } from 'vitest';
import { bikeRolloutMm } from '../../src/drivetrain/bike-rollout.ts';
import { parseBike } from '../../src/drivetrain/parse-bike.ts';

const good = { name: 'Hut bike 3', chainrings: [32], cassette: [11, 13, 15, 18, 21, 24, 28, 32, 37] };
const refusal = (change: object | string): string => {
  try {
    parseBike('bike.json', typeof change === 'string' ? change : JSON.stringify({ ...good, ...change }));
  } catch (error) {
    return (error as Error).message;
  }
  return 'accepted';
};

describe('parseBike', () => {
  it('takes the least a rider must write and fills in the actuation', () => {
    expect(parseBike('bike.json', JSON.stringify(good))).toEqual({ ...good, actuation: 'cable' });
  });

  it('leaves out the blanks about a name', () => {
    expect(parseBike('bike.json', JSON.stringify({ ...good, name: '  Hut bike 3 ' })).name).toBe('Hut bike 3');
  });

  it('takes a byte-order mark', () => {
    expect(parseBike('bike.json', `\uFEFF${JSON.stringify(good)}`).name).toBe('Hut bike 3');
  });

  it.each([
    [{ chainrings: [14] }, 'chainrings[0] is 14: must be at least 16'],
    [{ chainrings: [32.5] }, 'chainrings[0] is 32.5: must be a whole number'],
    [{ chainrings: [22, 32, 42, 52] }, 'chainrings is [22,32,42,52]: must name 1 to 3 chainrings'],
    [{ cassette: [11, 13, 15] }, 'cassette is [11,13,15]: must name 5 to 13 cogs'],
    [{ cassette: [28, 24, 21, 18, 15] }, 'cassette is [28,24,21,18,15]: must rise from the smallest cog'],
    [{ cassette: undefined }, 'cassette is missing: must be a list'],
    [{ rolloutMm: 2.29 }, 'rolloutMm is 2.29: must be 500 to 3500 millimetres; if metres were meant, 2290'],
    [{ rolloutMm: 229 }, 'rolloutMm is 229: must be 500 to 3500 millimetres.'],
    [{ rolloutMm: '2290' }, 'rolloutMm is "2290": must be a number'],
    [{ tyre: '29x2.25' }, 'tyre is "29x2.25": must be width-bead seat diameter in mm, for example 57-622'],
    [
      { tyre: '57-000' },
      'tyre is "57-000": must be a tyre whose wheel turn covers 500 to 3500 mm; by pi x (bead seat diameter + 2 x width) this one covers 358 mm',
    ],
    [{ tyre: '99-999' }, 'this one covers 3760 mm'],
    [{ actuation: 'wire' }, 'actuation is "wire": must be one of cable, electronic'],
    [{ name: '' }, 'name is empty: must have at least 1 character'],
    [{ name: '   ' }, 'name is "   ": must have a character that can be seen'],
    [{ casette: [11] }, '"casette" is perhaps "cassette"'],
    [{ colour: 'red' }, 'holds the unknown key "colour" (known are name, chainrings, cassette'],
    ['[]', 'the whole file is []: must be an object'],
    ['', 'bike.json: is empty'],
    ['{"name": "x",\n "chainrings" [32]}', 'is not valid JSON (reading stopped at line 2, column 15)'],
    ['{"name": "x"', 'is not valid JSON (reading stopped at line 1, column 13)'],
  ])('%j is refused in words', (change, words) => {
    expect(refusal(change)).toContain(words);
    expect(refusal(change)).toMatch(/^bike\.json: /);
  });

  it('says of what is no tyre size that alone', () => {
    expect(refusal({ tyre: '29x2.25' })).not.toContain('covers');
  });

  it.each(['23-571', '57-622', '35-349', '16-203'])('takes the tyre %s', (tyre) => {
    expect(parseBike('bike.json', JSON.stringify({ ...good, tyre })).tyre).toBe(tyre);
  });

  it('names every fault at once', () => {
    expect(refusal({ chainrings: [], actuation: 'wire' })).toMatch(/chainrings.*actuation/);
  });
});

describe('bikeRolloutMm', () => {
  it('takes the stated rollout before the tyre, and NaN with neither', () => {
    expect(bikeRolloutMm({ rolloutMm: 2290, tyre: '57-622' })).toBe(2290);
    expect(bikeRolloutMm({ tyre: '57-622' })).toBeCloseTo(2312.2, 1);
    expect(bikeRolloutMm({})).toBeNaN();
  });
});
