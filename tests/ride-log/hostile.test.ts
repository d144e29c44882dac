import { describe, expect, test } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { FUZZ_SEEDS } from './fuzz-seeds.ts';
import { HOSTILE_FILES } from './hostile-files.ts';
import { mutate } from './mutations.ts';
import { soundOutcome } from './sound-outcome.ts';

const seeds = Object.entries(FUZZ_SEEDS);

test.each(seeds)('%s: the seed itself is a ride', (_, bytes) => {
  expect(soundOutcome(bytes)).toBe('a ride');
});

test.each(seeds)('%s: cut at every length', (_, bytes) => {
  for (let length = 0; length < bytes.length; length += length < 200 ? 1 : 7) soundOutcome(bytes.subarray(0, length));
});

test.each(seeds)('%s: 600 mutations end in a sound ride or a typed refusal', (name, bytes) => {
  const random = seededRandom(20_260_606, name);
  const outcomes = new Map<string, number>();
  for (let n = 0; n < 600; n++) {
    const [, other] = seeds[random.integer(seeds.length)];
    const outcome = soundOutcome(mutate(bytes, random, other));
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  // Most damage is survived: a fuzz run that only ever meets refusals would test nothing behind them.
  expect(outcomes.get('a ride') ?? 0).toBeGreaterThan(100);
});

describe('files made to do harm', () => {
  test.each(HOSTILE_FILES.map(({ name, outcome, make }) => [name, outcome, make] as const))(
    '%s: %s',
    (_, outcome, make) => {
      expect(soundOutcome(make(200_000))).toBe(outcome);
    },
  );
});
