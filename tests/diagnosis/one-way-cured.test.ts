import { describe, expect, it } from 'vitest';
import { oneWayCured, wayCounts, wayWords } from '../../src/diagnosis/now/one-way-cured.ts';

type Count = readonly [trouble: number, shifts: number];

const tally = ([trouble, shifts]: Count) => ({ late: trouble, missed: 0, overshot: 0, shifts });
const made = (larger: readonly [Count, Count], smaller: readonly [Count, Count]) =>
  oneWayCured({
    cogs: [
      { direction: 'to-larger', before: tally(larger[0]), after: tally(larger[1]) },
      { direction: 'to-smaller', before: tally(smaller[0]), after: tally(smaller[1]) },
    ],
  });

const CURED = [
  [33, 291],
  [0, 103],
] as const;
const FAILING = [
  [20, 100],
  [18, 100],
] as const;

describe('an adjustment that cured one way', () => {
  it('is told with the counts of both ways, whichever is the cured one', () => {
    for (const [found, cured, failing] of [
      [made(CURED, FAILING), 'larger', 'smaller'],
      [made(FAILING, CURED), 'smaller', 'larger'],
    ] as const) {
      expect(found && [wayWords(found.cured), wayWords(found.failing)]).toEqual([
        `to ${cured} cogs`,
        `to ${failing} cogs`,
      ]);
      expect(found && [wayCounts(found.cured), wayCounts(found.failing)]).toEqual([
        '33 of 291 went wrong before, 0 of 103 since',
        '20 of 100 went wrong before, 18 of 100 since',
      ]);
    }
  });

  it('counts every kind of trouble, of all cogs', () => {
    const row = (direction: 'to-larger' | 'to-smaller', after: number) => ({
      direction,
      before: { late: 4, missed: 3, overshot: 3, shifts: 50 },
      after: { late: after, missed: after, overshot: after, shifts: 50 },
    });
    const rows = [row('to-larger', 0), row('to-smaller', 3)];
    expect(oneWayCured({ cogs: [...rows, ...rows] })).toEqual({
      cured: { direction: 'to-larger', before: { trouble: 20, shifts: 100 }, since: { trouble: 0, shifts: 100 } },
      failing: { direction: 'to-smaller', before: { trouble: 20, shifts: 100 }, since: { trouble: 18, shifts: 100 } },
    });
  });

  it.each([
    [
      'it is not plain that the one way is better',
      [
        [3, 40],
        [0, 30],
      ],
      FAILING,
    ],
    [
      'more than one shift of the cured way failed since',
      [
        [150, 300],
        [2, 103],
      ],
      FAILING,
    ],
    [
      'the other way is plainly better too',
      CURED,
      [
        [60, 100],
        [20, 100],
      ],
    ],
    [
      'the other way fails no more than the cured',
      [
        [150, 300],
        [1, 103],
      ],
      [
        [1, 200],
        [1, 200],
      ],
    ],
    [
      'nothing failed the other way since',
      CURED,
      [
        [0, 100],
        [0, 4],
      ],
    ],
  ] as const)('is not told where %s', (_why, larger, smaller) => {
    expect(made(larger, smaller)).toBeNull();
  });

  it('still is where a single shift of the cured way failed since', () => {
    expect(
      made(
        [
          [150, 300],
          [1, 103],
        ],
        FAILING,
      ),
    ).not.toBeNull();
  });
});
