import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/diagnosis/causes.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { type BikeState, bikeState } from '../../../src/report/state/bike-state.ts';
import { sampleReport } from '../sample-report.ts';
import { quietReport } from './quiet-report.ts';

type Now = Report['diagnosis']['now'];
type Look = NonNullable<Report['looks']>[number];

const BEFORE = '2000-01-01T00:00:00.000Z';
const [logged] = sampleReport().adjustments;
/** When the one adjustment of the sample was made, between its rides. */
const DONE = logged.at;
const made = (parameter: string, amount: number | null) => ({
  ...{ ...logged, parameter, amount, unit: amount === null ? 'done' : 'turns' },
});
const look = (parameter: string): Look => ({ at: DONE, parameter, unit: parameter === 'hanger' ? 'done' : 'turns' });

interface Made {
  readonly lostAt?: readonly string[];
  readonly confidence?: number;
  readonly now?: Partial<Now>;
  readonly adjustments?: Report['adjustments'];
  readonly looks?: Look[];
  readonly stepIsAbout?: string;
}

/** A bike with a likeliest cause, chains lost past the largest cog (37) and what was done since. */
function stateWith(cause: Cause, given: Made): BikeState {
  const { lostAt = [], confidence = 0.9, now, adjustments = [made('cable-tension', 1)], looks = [] } = given;
  const quiet = quietReport(cause, true);
  const chainDrops = lostAt.map((at) => ({ at, side: 'past-largest' as const, afterShiftTo: null, confidence }));
  const { suggestion } = quiet.diagnosis;
  return bikeState(
    {
      ...quiet,
      adjustments,
      looks,
      rides: quiet.rides.map((ride, i) => (i === 0 ? { ...ride, chainDrops } : ride)),
      diagnosis: {
        ...quiet.diagnosis,
        stillThere: 1,
        now: { ...quiet.diagnosis.now, ...now },
        suggestion: { ...suggestion, parameter: given.stepIsAbout ?? 'none' },
      },
    },
    [],
  );
}

/** What is dangerous on such a bike. */
const dangers = (cause: Cause, given: Made): readonly string[] => stateWith(cause, given).dangers;

const keepOff: Now['keepOff'] = ['past-largest'];
const before = { lostAt: [BEFORE], now: { keepOff } };

describe('keeping off a cog', () => {
  it('is said where the diagnosis keeps off it, also where the chain was lost since and no limit is likeliest', () => {
    expect(dangers('pulley-gap-small', { lostAt: [DONE], now: { keepOff } })).toEqual([
      'The chain left the cassette once: inspect before riding, and keep off the 37 until its limit and the hanger were looked at on a stand.',
    ]);
    expect(dangers('pulley-gap-small', { lostAt: [DONE], confidence: 0.5, now: { keepOff } })).toEqual([
      'Keep off the 37 until its limit and the hanger were looked at on a stand, since the chain may have been lost past it: inspect before riding.',
    ]);
  });

  it('is said once where the chain was lost, with one condition', () => {
    const said = (lostAt: string, cause: Cause): readonly string[] =>
      dangers(cause, { lostAt: [lostAt], now: { keepOff } });
    for (const lostAt of [DONE, BEFORE])
      for (const cause of ['low-limit-loose', 'hanger-bent'] as const)
        expect(
          said(lostAt, cause)
            .join(' ')
            .match(/keep off|inspect/gi),
        ).toHaveLength(2);
    // what went past it already can go past it is no news
    expect(said(DONE, 'low-limit-loose')).toEqual([
      'The chain left the cassette once, likeliest by a low limit screw too far out (98 %): inspect before riding, and keep off the 37 until its limit and the hanger were looked at on a stand.',
    ]);
    expect(said(DONE, 'hanger-bent')[1]).toBe('Derailleur hanger bent (98 %): the derailleur can reach the spokes.');
    expect(said(BEFORE, 'low-limit-loose')[1]).toBe(
      'Low limit screw too far out (98 %): the chain can go into the spokes.',
    );
  });

  it('is said of both ends at once, with one condition where it is the same', () => {
    const both = { keepOff: ['past-largest', 'past-smallest'] } satisfies Partial<Now>;
    const given = { lostAt: [DONE], now: both };
    const [said, ...more] = dangers('high-limit-loose', given);
    expect(said).toBe(
      'The chain left the cassette once: inspect before riding, and keep off the 37 and the 11 until their limits and the hanger were looked at on a stand.',
    );
    // which of the two it went past by that limit is not known
    expect(more).toEqual(['High limit screw too far out (98 %): the chain can jam at the frame.']);
    expect(dangers('no-fault', { ...given, now: { ...both, lookedOver: ['past-largest'] } })[0]).toMatch(
      /keep off the 37 until the chain stays on there on a stand, and off the 11 until its limit and the hanger were/,
    );
    expect(dangers('no-fault', { ...given, confidence: 0.5 })).toEqual([
      'Keep off the 37 and the 11 until their limits and the hanger were looked at on a stand, since the chain may have been lost past them: inspect before riding.',
    ]);
  });

  it('asks only for what was not yet looked at or set since', () => {
    const until = (given: Made): string | undefined =>
      /until (.*) on a stand/.exec(dangers('low-limit-loose', { ...before, ...given })[0])?.[1];
    expect(until({})).toBe('its limit and the hanger were looked at');
    const hangerLeft = 'the hanger was looked at and the chain stays on there';
    expect(until({ adjustments: [made('low-limit', 0.25)] })).toBe(hangerLeft);
    expect(until({ looks: [look('low-limit')] })).toBe(hangerLeft);
    expect(until({ adjustments: [made('hanger', null)] })).toBe('its limit was looked at and the chain stays on there');
    expect(until({ adjustments: [made('hanger', null)], looks: [look('low-limit')] })).toBe('the chain stays on there');
    // one that was turned out lets the chain further
    expect(until({ adjustments: [made('low-limit', -0.25)] })).toBe('its limit and the hanger were looked at');
    expect(until({ adjustments: [made('some-other-part', 1)] })).toBe('its limit and the hanger were looked at');
  });

  it('is not said where the next step sends the rider there: it is tried on a stand first', () => {
    const tried =
      'Low limit screw too far out (98 %): the chain can go into the spokes. Try the largest cog on a stand, turning the cranks by hand, before any ride onto it.';
    for (const setting of ['unsettled', 'untested'] as const)
      expect(dangers('low-limit-loose', { now: { setting } }).at(-1)).toBe(tried);
    const found = { looks: [look('low-limit')], stepIsAbout: 'hanger' };
    expect(dangers('low-limit-loose', found)).toEqual([tried]);
    // a step that asks for the limit again keeps off its cog
    expect(dangers('low-limit-loose', { ...found, stepIsAbout: 'low-limit' })[0]).toMatch(/Keep off the largest cog/);
  });

  it('calls no hanger unchecked that was aligned or found right', () => {
    const unridden = dangers('hanger-bent', { adjustments: [made('hanger', null)], now: { setting: 'untested' } });
    const right = dangers('hanger-bent', { looks: [look('hanger')], stepIsAbout: 'cable-tension' });
    for (const said of [unridden, right])
      expect(said).toEqual([expect.stringMatching(/^Derailleur hanger bent .* Try the largest cog on a stand/)]);
    for (const given of [{}, { now: { setting: 'untested' } }] as const)
      expect(dangers('hanger-bent', given)[0]).toMatch(/Keep off the largest cog until the hanger is checked\.$/);
  });

  it('leaves out of the cautions of the next step what it says itself', () => {
    const said = (...given: Parameters<typeof stateWith>) => stateWith(...given).cautionsSaid;
    expect(said('hanger-bent', {})).toEqual(['bent-hanger']);
    expect(said('pulley-gap-small', before)).toEqual(['keep-off']);
    expect(said('pulley-gap-small', {})).toEqual([]);
    // one danger says what a bent hanger lets happen, another until when the cog is kept off for its sake
    expect(said('hanger-bent', before)).toEqual(['bent-hanger', 'keep-off']);
    // where the cog is kept off for the limit alone, nothing says what to do about the hanger
    expect(said('hanger-bent', { ...before, adjustments: [made('hanger', null)] })).toEqual(['keep-off']);
  });
});
