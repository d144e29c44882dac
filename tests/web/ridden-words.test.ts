import { describe, expect, it } from 'vitest';
import { lastRideWords, riddenWords } from '../../web/words/ridden-words.ts';

describe('how often and when last a bike was ridden', () => {
  it.each([
    [{ rides: 0, lastRideAt: null, pending: 0 }, 'no ride yet', 'no ride yet'],
    [{ rides: 3, lastRideAt: '2026-05-03T08:00:00.000Z', pending: 0 }, '3 rides, last 3 May 2026', '3 May 2026'],
    [{ rides: 1, lastRideAt: null, pending: 0 }, '1 ride, day not recorded', 'day not recorded'],
    [{ rides: 2, lastRideAt: null, pending: 2 }, '2 rides', 'not known yet'],
  ])('%o', (ridden, often, last) => {
    expect(riddenWords(ridden)).toBe(often);
    expect(lastRideWords(ridden)).toBe(last);
  });
});
