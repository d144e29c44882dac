import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { type CassetteEnd, cassetteEnds } from '../../src/adjustments/end-cog-count.ts';
import { limitAt } from '../../src/diagnosis/cassette-ends.ts';
import { type Cause, causes } from '../../src/diagnosis/causes.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { toldByHand } from '../../src/diagnosis/told-by-hand.ts';
import { count, facts, now, seen } from './made-facts.ts';

const faults = causes.filter((cause) => cause !== 'no-fault');
const pairs = causes.flatMap((likelier) =>
  faults.filter((other) => other !== likelier).map((other) => [likelier, other]),
);

/** A chain was lost past these ends, and nothing since shows that it stays on. */
function lostPast(ends: readonly CassetteEnd[], cause: Cause, changes: Partial<SuggestionFacts> = {}) {
  const since = { last: null, seen: seen(), lost: () => 0 };
  return facts({
    seen: seen({ all: count(600, 40) }),
    drops: (side) => (ends.includes(side as CassetteEnd) ? 1 : 0),
    ranked: [{ cause, probability: 0.6 }],
    now: now({ cause, fault: cause, keepOff: new Set(ends), since }),
    ...changes,
  });
}

/** In which steps a limit is looked at by hand, by their place in the list; the beginning, where it is said there, is the first's. */
function looks(made: SuggestionFacts, end: CassetteEnd): number[] {
  const { steps, start } = suggest(made);
  const look = toldByHand(limitAt[end].loose, made.electronic);
  const told = [`${steps[0]} ${start}`, ...steps.slice(1)];
  return told.flatMap((words, place) =>
    words
      .split(look)
      .slice(1)
      .map(() => place),
  );
}

describe.each(cassetteEnds)('a limit with a chain lost %s', (end) => {
  it('is what the first sentence is about, and not the part that is named after it', () => {
    expect(suggest(lostPast([end], 'pulley-gap-large'))).toMatchObject({
      parameter: 'pulley-gap',
      firstAbout: limitAt[end].parameter,
    });
    expect(suggest(lostPast([], 'pulley-gap-large'))).not.toHaveProperty('firstAbout');
  });

  it('is looked at once, before what can wait, whatever is named', () => {
    for (const electronic of [false, true])
      for (const cause of causes) {
        const made = lostPast([end], cause, { electronic });
        expect([cause, looks(made, end)]).toEqual([cause, cause === 'hanger-bent' ? [1] : [0]]);
      }
  });

  it('is looked at once, before what can wait, between whichever causes it is open', () => {
    for (const [likelier, other] of pairs) {
      const undecided = { between: [likelier, other] as const, becauseOf: ['x'], sentence: 'Undecided.' };
      const found = looks(lostPast([end], likelier, { undecided }), end);
      expect([likelier, other, found]).toEqual([likelier, other, likelier === 'hanger-bent' ? [1] : [0]]);
    }
  });

  it('is looked at before anything else where nothing is to be turned, or nothing is known yet', () => {
    const wellSince = {
      ...{ at: '2026-05-08T06:00:00.000Z', shifts: 310, trouble: 1, there: { shifts: 40, trouble: 0 } },
      ...{ adjusted: false, putRight: true, entryAt: null },
    };
    for (const changes of [{ wellSince }, { seen: seen() }, { seen: seen({ all: count(5, 1) }) }]) {
      const made = lostPast([end], 'cable-tension-low', changes);
      expect(looks(made, end)).toEqual([0]);
      expect(suggest(made).action).toMatch(/Turn nothing else/);
    }
  });

  it('is looked at before a ride on what was adjusted last', () => {
    const last = { at: '2026-05-07T12:00:00Z', parameter: 'cable-tension' } as const;
    const since = { last, seen: seen({ all: count(0, 0) }), lost: () => 0 };
    const made = lostPast([end], 'cable-tension-low');
    const { steps } = suggest({ ...made, now: { ...made.now, setting: 'untested', since } });
    expect(steps[0]).toMatch(
      /^First (look|have the hanger gauged).* before the last adjustment, and it was not asked for since\./,
    );
    expect(steps[1]).toMatch(/^Ride before anything more is turned/);
  });
});

it('looks at the limits of both ends, one after the other, and at the hanger once', () => {
  for (const cause of causes) {
    const made = lostPast(cassetteEnds, cause);
    const first = cause === 'hanger-bent' ? 1 : 0;
    const found = cassetteEnds.flatMap((end) => looks(made, end));
    expect([cause, found.length]).toEqual([cause, 2]);
    expect([cause, [...found].sort()]).toEqual([cause, [first, first + 1]]);
    expect(suggest(made).action.match(/hanger is bent/g)?.length ?? 0).toBeLessThanOrEqual(1);
  }
});

it('does not tell one who logged a turn of the limit that nobody may have touched it', () => {
  const turned = {
    ...{ at: '2026-05-07T12:00:00Z', parameter: 'low-limit', amount: 0.25, unit: 'turns', group: 0 },
    ...{ before: { shifts: 100 }, after: { shifts: 200 }, probabilityBetter: 0.5, oppositeWays: null, together: null },
  } as unknown as AdjustmentComparison;
  for (const cause of ['low-limit-loose', 'cable-tension-low'] as const) {
    const action = (comparisons: AdjustmentComparison[]) =>
      suggest(lostPast(['past-largest'], cause, { comparisons })).action;
    expect(action([])).toMatch(/have the hanger gauged, above all if the bike fell or nobody touched the limit; then/i);
    expect(action([turned])).toMatch(/have the hanger gauged, above all if the bike fell; then/i);
  }
});

it('says of one step alone that it is first', () => {
  const onset = { kind: 'sudden', at: '2026-05-07T12:00:00Z', rideBeforeAt: null, probability: 0.9 } as const;
  for (const cause of causes) {
    const { steps } = suggest(lostPast(cassetteEnds, cause, { onset }));
    expect(steps.filter((step) => /^First|(?<!after the )\bfirst\b/.test(step)).length).toBeLessThanOrEqual(1);
  }
});

it('says once to keep off an end, by whichever words and wherever in the list they stand', () => {
  for (const cause of faults) {
    const { steps, start, cautions } = suggest(lostPast(cassetteEnds, cause));
    const said = [...steps, start, ...cautions].join(' ');
    for (const end of ['largest', 'smallest'])
      expect([cause, end, said.match(new RegExp(`keep off the ${end} cog`, 'gi'))?.length]).toEqual([cause, end, 1]);
  }
});

it('has a limit whose screw was turned in last tried on a stand, and not looked at as if nobody had set it', () => {
  const begin = (amount: number, lost: number): string => {
    const last = { at: '2026-04-18T12:00:00Z', parameter: 'high-limit', amount } as const;
    const { trials } = now();
    const cause = 'high-limit-loose';
    return suggest(
      lostPast(['past-smallest'], cause, {
        now: now({
          ...{ cause, fault: cause, setting: 'unsettled', trials, keepOff: new Set(['past-smallest'] as const) },
          since: { last, seen: seen(), lost: () => lost },
        }),
      }),
    ).start;
  };
  expect(begin(0.25, 0)).toMatch(
    /^The high limit screw was set on 2026-04-18: try ten shifts .* Keep off the smallest/,
  );
  expect(begin(0.25, 1)).toMatch(/^Do it before anything else is turned/);
  expect(begin(-0.25, 0)).toMatch(/^Do it before anything else is turned/);
});
