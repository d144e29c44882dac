import { describe, expect, it } from 'vitest';
import { sparseRecords } from '../../src/gear-trace/disagreement/sparse-warning.ts';
import { skipsByCog } from '../../src/report/cog-skips.ts';
import { anySkips, describeSkipsByCog } from '../../src/report/words/skip-sentences.ts';
import { skipped } from './made-skips.ts';

const bike = { cassette: [11, 15, 21] };
const ride = (cogs: readonly number[], pedallingS: readonly number[], change = {}) => ({
  events: {
    skips: cogs.map((cog) => ({ timeS: 1, cog, confidence: 1, torqueNm: 30 })),
    pedallingSByCog: Float64Array.from(pedallingS),
  },
  report: { counts: { skips: cogs.length }, evidence: 'full', warnings: [], ...change } as never,
});

describe('skips by cog', () => {
  it('are counted over all rides, with the time on each cog and the rate with its interval', () => {
    const [smallest, middle, largest] = skipsByCog([ride([1, 1], [0, 1800, 600]), ride([1], [0, 1800, 0])], bike);
    expect(middle).toEqual({ teeth: 15, skips: 3, pedallingS: 3600, perHour: 3, low: 0.619, high: 8.767 });
    expect(largest).toMatchObject({ teeth: 21, skips: 0, perHour: 0, low: 0 });
    expect(smallest).toEqual({ teeth: 11, skips: 0, pedallingS: 0, perHour: null, low: null, high: null });
  });

  it('leave out the pedalling of rides that cannot show any, and a skip on a cog that nobody knows', () => {
    const sparse = { warnings: [{ code: sparseRecords, message: '' }] };
    const cogs = skipsByCog([ride([1, -1], [0, 60, 0]), ride([], [0, 6000, 0], sparse)], bike);
    expect(cogs.map(({ skips, pedallingS }) => [skips, pedallingS])).toEqual([
      [0, 0],
      [1, 60],
      [0, 0],
    ]);
    // what was found counts in any case
    expect(skipsByCog([ride([1], [0, 6000, 0], sparse)], bike)[1]).toMatchObject({ skips: 1, pedallingS: 6000 });
  });
});

describe('skips by cog in words', () => {
  it('name the cog on which the chain surely skips most for the time on it, not the one with one skip in no time', () => {
    expect(describeSkipsByCog([skipped(15, 9, 2), skipped(18, 12, 40), skipped(21, 1, 0.01)])).toBe(
      '22 skips seen on 3 cogs. For the time pedalled most often on 15 teeth: 9 skips in 2 h 00 min of pedalling, 4.5 an hour (2.1 to 8.5).',
    );
    expect(describeSkipsByCog([skipped(15, 1, 2), skipped(18, 0, 4)])).toBe(
      '1 skip seen. On 15 teeth: 1 skip in 2 h 00 min of pedalling, 0.5 an hour (0.0 to 2.8).',
    );
    expect(describeSkipsByCog([skipped(15, 1, 0), skipped(18, 0, 4)])).toBe('1 skip seen. On 15 teeth: 1 skip.');
    expect(describeSkipsByCog([skipped(15, 0, 2)])).toBe('No skip was seen.');
  });

  it('stand nowhere where none was seen, or an older report counted none', () => {
    expect([anySkips(undefined), anySkips([skipped(15, 0, 2)]), anySkips([skipped(15, 1, 2)])]).toEqual([
      false,
      false,
      true,
    ]);
  });
});
