import { describe, expect, it } from 'vitest';
import type { DropCandidate, DropPattern, MeasuredSign } from '../../src/shifts/drops/drop-candidate.ts';
import { weighCandidate } from '../../src/shifts/drops/weigh-candidate.ts';

const clear: readonly MeasuredSign[] = [
  { sign: 'legs-faster', value: Math.log(1.5) },
  { sign: 'legs-fast-for', value: 4 },
  { sign: 'records-below', value: 4 },
  { sign: 'past-gear', value: 0.4 },
  { sign: 'halt-lasts', value: 40 },
];

const weighed = (signs: readonly MeasuredSign[], pattern: DropPattern = 'low-ratio') => {
  const candidate: DropCandidate = { pattern, start: 7, signs };
  return weighCandidate(candidate);
};

describe('weighCandidate', () => {
  it('adds up the signs, each up to its most, to log odds and their probability', () => {
    const lost = weighed(clear)!;
    expect(lost.signs.map(({ sign, logOdds }) => [sign, logOdds])).toEqual([
      ['beforehand', -9],
      ['legs-faster', 4],
      ['legs-fast-for', 0],
      ['records-below', 4],
      ['past-gear', 3],
      ['halt-lasts', 2],
    ]);
    expect([lost.start, lost.logOdds]).toEqual([7, 4]);
    expect(lost.confidence).toBeCloseTo(1 / (1 + Math.exp(-4)), 12);
  });

  it('finds no lost chain below even odds, nor where power is still there', () => {
    expect(weighed(clear.slice(0, 3))).toBeNull();
    expect(weighed([...clear, { sign: 'power-there', value: 200 }])).toBeNull();
  });

  it('weighs a sign by the pattern it was seen in', () => {
    const spin: readonly MeasuredSign[] = [
      { sign: 'legs-past-usual', value: 1.2 },
      { sign: 'past-gear', value: 0.5 },
      { sign: 'halt-after', value: 8 },
      { sign: 'halt-lasts', value: 40 },
    ];
    const added = weighed(spin, 'free-spin')?.signs.map(({ logOdds }) => logOdds);
    expect(added).toEqual([-5.5, expect.closeTo(4, 9), 2, 1.5, 0]);
    // log odds of 0.6 are better than even, and yet too little for this pattern
    const doubtful: readonly MeasuredSign[] = [
      { sign: 'legs-past-usual', value: 1.19 },
      { sign: 'past-gear', value: 0.5 },
      { sign: 'halt-after', value: 30 },
      { sign: 'end-cog-asked', value: 3 },
    ];
    expect(weighed(doubtful, 'free-spin')).toBeNull();
    expect(weighed([...doubtful, { sign: 'power-gone', value: 5 }], 'free-spin')?.logOdds).toBeCloseTo(1.6, 9);
    const stopped = (odds: number, lastsS: number): MeasuredSign[] => [
      { sign: 'halts-so-often', value: odds },
      { sign: 'halt-lasts', value: lastsS },
    ];
    const logOdds = (pattern: DropPattern, odds: number, lastsS: number): number | undefined =>
      weighed(stopped(odds, lastsS), pattern)?.logOdds;
    expect(logOdds('halt-at-smallest', 2, 30)).toBeCloseTo(Math.log(2) + 1, 12);
    expect(logOdds('halt-at-largest', 2, 30)).toBeCloseTo(Math.log(2), 12);
    expect(logOdds('halt-at-largest', 2, 90)).toBeCloseTo(Math.log(2) + 1.5, 12);
    // too short to put a chain back, the ride's end, a rest
    expect(logOdds('halt-at-smallest', 4, 15)).toBeCloseTo(Math.log(4) - 1, 12);
    expect(logOdds('halt-at-smallest', 4, Number.POSITIVE_INFINITY)).toBeCloseTo(Math.log(4) - 1, 12);
    expect(logOdds('halt-at-largest', 4, 1800)).toBeCloseTo(Math.log(4), 12);
    expect(logOdds('halt-at-smallest', 0.2, 30)).toBeUndefined();
  });

  it('takes off what a stop that was meant would show too, and where none follows', () => {
    const spin: readonly MeasuredSign[] = [
      { sign: 'legs-past-usual', value: 1.2 },
      { sign: 'past-gear', value: 0.5 },
      { sign: 'halt-after', value: 8 },
    ];
    expect(weighed(spin, 'free-spin')?.logOdds).toBeCloseTo(2, 9);
    // one fast reading may be the sensor's slip: the same odds are too few then, and the power gone makes up for half of it
    const single = { sign: 'single-reading', value: Number.NaN } as const;
    expect(weighed([...spin, single], 'free-spin')).toBeNull();
    const gone = [{ sign: 'power-gone', value: 5 } as const, { sign: 'end-cog-asked', value: 3 } as const];
    expect(weighed([...spin, single, ...gone], 'free-spin')?.logOdds).toBeCloseTo(2.5, 9);
    const late = spin.map((sign) => (sign.sign === 'halt-after' ? { ...sign, value: 30 } : sign));
    expect(weighed(late, 'free-spin')).toBeNull();
    const unstopped = weighed([...clear.slice(0, 4), { sign: 'power-gone', value: 5 }, { sign: 'no-halt', value: 30 }]);
    expect(unstopped?.logOdds).toBe(4);
    const braked = (mps2: number, pattern: DropPattern): number | undefined =>
      weighed(
        [
          { sign: 'halts-so-often', value: 20 },
          { sign: 'braking', value: mps2 },
        ],
        pattern,
      )?.logOdds;
    expect(braked(1.5, 'halt-at-smallest')).toBeCloseTo(Math.log(20), 12);
    expect(braked(2, 'halt-at-smallest')).toBeCloseTo(Math.log(20) - 2, 12);
    expect(braked(2, 'halt-at-largest')).toBeCloseTo(Math.log(20), 12);
  });

  it('holds what has no number or no end', () => {
    const endless = weighed([
      ...clear.slice(0, 4),
      { sign: 'halt-lasts', value: Number.POSITIVE_INFINITY },
      { sign: 'end-cog-held', value: Number.NaN },
    ]);
    expect(endless?.logOdds).toBe(6);
  });
});
