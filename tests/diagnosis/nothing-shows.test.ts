import { describe, expect, it } from 'vitest';
import { rideWanted } from '../../src/diagnosis/check-ride/ride-wanted.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { count, facts, now, seen } from './made-facts.ts';

const unsure: SuggestionFacts['ranked'] = [
  { cause: 'no-fault', probability: 0.4 },
  { cause: 'pulley-gap-small', probability: 0.24 },
];
const sure: SuggestionFacts['ranked'] = [{ cause: 'no-fault', probability: 0.7 }];
const well = seen({ all: count(271, 0) });
const ridden: SuggestionFacts['checkRide'] = { ...facts().checkRide, sentences: ['Six times to the 13.'] };

describe('a bike on which nothing at all went wrong', () => {
  it('is left as it is, and the check ride is an offer', () => {
    const { steps, verify, parameter } = suggest(facts({ ranked: unsure, seen: well, checkRide: ridden }));
    expect(steps).toEqual(['Nothing shows: 0 of 271 judged shifts went wrong. Leave everything as it is.']);
    expect(verify).toMatch(/ride the check ride if you want to know sooner/);
    expect(parameter).toBe('none');
    expect(rideWanted(facts({ ranked: unsure, seen: well }))).toBe(true);
  });

  it('is looked at where anything did go wrong, or where an assumption turns whether there is a fault', () => {
    const undecided = {
      between: ['no-fault', 'pulley-gap-small'],
      sentence: '',
    } as unknown as SuggestionFacts['undecided'];
    for (const some of [
      { seen: seen({ all: count(271, 1) }) },
      { seen: seen({ all: count(271, 0), events: 1 }) },
      { seen: well, undecided },
    ])
      expect(suggest(facts({ ranked: unsure, ...some })).action).toMatch(/not decided whether there is a fault/);
  });
});

describe('a bike on which hardly anything went wrong', () => {
  const action = (none: number, next: number, late = 1): string =>
    suggest(
      facts({
        ranked: [
          { cause: 'no-fault', probability: none },
          { cause: 'low-limit-loose', probability: next },
        ],
        seen: seen({ all: count(320, late) }),
      }),
    ).action;

  it('is left as it is on either side of one half, as long as no fault is near', () => {
    expect(action(0.51, 0.1)).toBe('Leave everything as it is.');
    expect(action(0.49, 0.1)).toBe(
      'Hardly anything shows: 1 of 320 judged shifts went wrong. Leave everything as it is.',
    );
    expect(action(0.33, 0.1)).toMatch(/^Hardly anything shows/);
  });

  it('is looked at where a fault is near, or more went wrong', () => {
    expect(action(0.49, 0.2)).toMatch(/not decided whether there is a fault/);
    expect(action(0.49, 0.1, 8)).toMatch(/not decided whether there is a fault/);
    expect(action(0.35, 0.3, 8)).toMatch(/not decided whether there is a fault/);
  });

  it('is said to be likely at fault where it is', () => {
    expect(action(0.23, 0.22, 32)).toMatch(/^Turn nothing yet: a fault is likely \(77 %\), but not yet sure\./);
  });
});

describe('an end cog that was hardly shifted onto', () => {
  const shifts = (onto11: number) =>
    seen({
      all: count(271, 0),
      shifts: (direction, onto = () => true) =>
        count(direction === 'to-smaller' && onto(0) && !onto(1) ? onto11 : 40, 0),
    });
  const verify = (changes: Partial<SuggestionFacts>): string => suggest(facts({ ranked: sure, ...changes })).verify;

  it('is to be tried on the next ride, which costs nothing', () => {
    expect(verify({ seen: shifts(2) })).toMatch(/To know more of the 11, .* ten soft shifts onto it .* on a stand/);
    expect(verify({ seen: shifts(5) })).not.toMatch(/soft shifts/);
    expect(verify({ ranked: unsure, seen: shifts(2) })).toMatch(/ten soft shifts onto it/);
  });

  it('is not where its limit was looked at, or the chain is to be kept off it', () => {
    const look = { at: '2026-05-01T10:00:00Z', parameter: 'high-limit' } as SuggestionFacts['foundRight'][number];
    expect(verify({ seen: shifts(2), foundRight: [look] })).not.toMatch(/soft shifts/);
    expect(verify({ seen: shifts(2), now: now({ keepOff: new Set(['past-smallest']) }) })).not.toMatch(/soft shifts/);
  });
});
