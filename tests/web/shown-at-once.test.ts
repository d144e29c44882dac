import { expect, it } from 'vitest';
import { shownAtOnce } from '../../web/bike/cause-list.ts';

const shown = (...probabilities: number[]): number =>
  shownAtOnce(probabilities.map((probability) => ({ probability })));

it('opens to view the likeliest cause and a few more, none of those that read as under 1 %', () => {
  expect(shown(0.99, 0.004, 0.003, 0.003)).toBe(1);
  expect(shown(0.96, 0.02, 0.005, 0.004)).toBe(3);
  expect(shown(0.3, 0.2, 0.2, 0.1, 0.1, 0.1)).toBe(4);
  expect(shown(0.004, 0.003)).toBe(1);
});
