import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cause, causes } from '../../../src/diagnosis/causes.ts';
import { faultsTurnedTo } from '../../../src/diagnosis/now/spoiled-by-turning.ts';
import { turnedWhileWell } from '../../../src/diagnosis/now/well-at-first.ts';
import { withSpoiled } from '../../../src/diagnosis/posterior/with-spoiled.ts';
import { cableBike, healthyPattern } from '../pattern-ride.ts';
import { adjustedBike, slow, type Turn, turned } from './adjusted-bikes.ts';

const sound = { pattern: healthyPattern };
const failing = { pattern: slow('to-larger', 0.15, 0.1) };
const less: Turn = ['cable-tension', -3];
const more: Turn = ['cable-tension', 3];
type Rides = Parameters<typeof adjustedBike>[0];

describe('the faults that turning may have brought about', () => {
  const faultsOf = (rides: Rides) => {
    const bike = adjustedBike(rides);
    return faultsTurnedTo(bike.rides, bike.adjustments, cableBike);
  };

  it('are those on the side to which a setting was turned, where the rides since fail that way', () => {
    expect(faultsOf([sound, { ...failing, after: less }])).toEqual(['cable-tension-low']);
    expect(faultsOf([sound, { ...failing, after: more }])).toEqual([]);
    expect(faultsOf([sound, { ...sound, after: less }])).toEqual([]);
    expect(faultsOf([failing, failing])).toEqual([]);
  });

  it('are none once it is taken back, nor by what no ride came after', () => {
    expect(faultsOf([sound, { ...failing, after: less }, { ...sound, after: more }])).toEqual([]);
    const { rides } = adjustedBike([sound, failing]);
    expect(faultsTurnedTo(rides, [turned(5, less)], cableBike)).toEqual([]);
  });
});

describe('the first turn on a bike that shifts well', () => {
  const turnOf = (rides: Rides) => {
    const bike = adjustedBike(rides);
    return turnedWhileWell(bike.rides, bike.adjustments, cableBike);
  };

  it('is told where the rides before it show so, whatever came after', () => {
    expect(turnOf([sound, sound, { ...failing, after: less }, { ...sound, after: more }])?.amount).toBe(-3);
    expect(turnOf([sound, { ...failing, after: ['hanger', null] }])).toBeNull();
    expect(turnOf([sound, failing])).toBeNull();
  });

  it('is none where they went wrong, or nothing was ridden before it', () => {
    expect(turnOf([failing, { ...sound, after: less }])).toBeNull();
    const { rides } = adjustedBike([sound, sound]);
    expect(turnedWhileWell(rides, [turned(-1, less)], cableBike)).toBeNull();
  });
});

it('moves what is spoiled from bikes in order to the faults that turning made of them, and nothing else', () => {
  const weights = fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), {
    minLength: causes.length,
    maxLength: causes.length,
  });
  fc.assert(
    fc.property(
      weights,
      fc.double({ min: 0, max: 0.6, noNaN: true }),
      fc.double({ min: 0, max: 0.4, noNaN: true }),
      (w, a, b) => {
        const total = w.reduce((sum, one) => sum + one, 0);
        const before = w.map((one) => one / total);
        const shares = new Map<Cause, number>([
          ['cable-tension-low', a],
          ['low-limit-tight', b],
        ]);
        const after = withSpoiled(before, shares);
        expect(after.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
        const none = before[causes.indexOf('no-fault')];
        causes.forEach((cause, c) => {
          const gained = cause === 'no-fault' ? -(a + b) * none : (shares.get(cause) ?? 0) * none;
          expect(after[c] - before[c]).toBeCloseTo(gained, 12);
        });
      },
    ),
  );
});
