import { expect, it } from 'vitest';
import { Progress, timeLeft } from '../../web/add-rides/time-left.ts';

it('the time left is told from the pace so far, once there is one', () => {
  expect(timeLeft({ done: 10, left: 20, tookMs: 60_000 })).toBe('about 2 min');
  expect(timeLeft({ done: 30, left: 3, tookMs: 60_000 })).toBe('less than a minute');
  expect(timeLeft({ done: 2, left: 300, tookMs: 60_000 })).toBe('about 2 h 30 min');
  for (const early of [
    { done: 1, left: 20, tookMs: 60_000 },
    { done: 5, left: 20, tookMs: 1000 },
    { done: 5, left: 0, tookMs: 60_000 },
  ])
    expect(timeLeft(early)).toBeNull();
});

it('how many are done and left is told with it; those that took no work do not quicken the pace', () => {
  let nowMs = 1000;
  const progress = new Progress(() => nowMs);
  expect(progress.words(20, 50, 0)).toBe('20 of 50 done, 30 left');
  nowMs += 60_000;
  expect(progress.words(30, 50, 10)).toBe('30 of 50 done, 20 left, about 2 min');
  expect(progress.words(50, 50, 30)).toBe('50 of 50 done');
});
