import { describe, expect, it } from 'vitest';
import { DECIDED_AT } from '../../src/adjustments/compare-rates.ts';
import { triesStillNeeded } from '../../src/adjustments/limit-holds.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { verifyStep } from '../../src/diagnosis/next-step/verify-step.ts';
import { type Observed, observe } from '../../src/diagnosis/observed.ts';
import { cableBike, healthyPattern, type PatternRide, patternRide } from './pattern-ride.ts';

const seen = (pattern: PatternRide['pattern'], skipsOn: readonly number[] = []): Observed =>
  observe([patternRide({ pattern, skipsOn })], cableBike);
const onlyLarger = seen((_, larger) => (larger ? { late: 0.9, missed: 0.09 } : {}));
const onlySmaller = seen((_, larger) => (larger ? {} : { late: 0.9, missed: 0.09 }));
const shiftCauses = causes.filter((cause) => !/loose|worn/.test(cause));

describe('verifyStep', () => {
  it.each(shiftCauses)('%s: never proves a cure by shifts that went well before', (cause) => {
    expect(verifyStep(cause, onlyLarger)).not.toMatch(/to smaller|from the 12 onto the 10/);
    expect(verifyStep(cause, onlySmaller)).not.toMatch(/to larger|from the 45 onto the 51/);
  });

  it('names the direction and the cogs that failed', () => {
    expect(verifyStep('cable-friction', onlyLarger)).toMatch(/at least 5 shifts to larger cogs, onto the 12 to the 51/);
    const few = seen((cog, larger) => (larger && (cog === 4 || cog === 6) ? { late: 0.5 } : {}));
    expect(verifyStep('hanger-bent', few)).toMatch(/shifts to larger cogs, onto the 18 to the 24 with/);
  });

  it.each([
    ['cable-tension-low', onlyLarger, /to larger cogs, onto the 14 to the 45 with/],
    ['cable-friction', onlySmaller, /to smaller cogs, onto the 39 to the 12 with/],
    [
      'low-limit-tight',
      seen((cog, larger) => (larger && cog === 11 ? { missed: 0.5 } : {})),
      /from the 45 onto the 51, softly/,
    ],
    [
      'high-limit-tight',
      seen((cog, larger) => (!larger && cog === 0 ? { missed: 0.5 } : {})),
      /from the 12 onto the 10, softly/,
    ],
    [
      'pulley-gap-small',
      seen((cog, larger) => (larger && cog > 8 ? { late: 0.4 } : {})),
      /onto the 39 to the 51, softly/,
    ],
    [
      'pulley-gap-small',
      seen((cog, larger) => (larger && cog > 5 ? { late: 0.4 } : {})),
      /onto the 24 to the 51, softly/,
    ],
    ['pulley-gap-large', seen(() => ({ late: 0.3 })), /in both directions over the whole cassette/],
  ] as const)(
    '%s: asks for the shifts on which it shows as a rule, where they failed',
    (cause: Cause, rides, words) => {
      expect(verifyStep(cause, rides)).toMatch(words);
    },
  );

  it('names the cogs that skipped', () => {
    expect(verifyStep('worn-drivetrain', seen(healthyPattern, [5, 2, 5]))).toMatch(/it skipped on \(14, 21\)/);
  });

  describe('off an end cog past which a chain was lost', () => {
    const [largest, smallest] = [new Set(['past-largest'] as const), new Set(['past-smallest'] as const)];
    const both = new Set(['past-largest', 'past-smallest'] as const);
    const everywhere = seen(() => ({ late: 0.3 }));

    it('asks for no shift onto it or off it on a ride', () => {
      expect(verifyStep('cable-friction', onlyLarger, largest)).toMatch(/to larger cogs, onto the 12 to the 45 /);
      expect(verifyStep('cable-friction', onlyLarger, smallest)).toMatch(/to larger cogs, onto the 14 to the 51,/);
      const smaller = seen((_, larger) => (larger ? {} : { late: 0.9 }));
      expect(verifyStep('hanger-bent', smaller, largest)).toMatch(/to smaller cogs, onto the 39 to the 10,/);
      expect(verifyStep('hanger-bent', smaller, smallest)).toMatch(/to smaller cogs, onto the 45 to the 12 /);
      expect(verifyStep('pulley-gap-large', everywhere, both)).toMatch(
        /over the whole cassette but for the 51 and 10, past which the chain was lost, with five turns/,
      );
      expect(verifyStep('worn-drivetrain', seen(healthyPattern, [0, 5]), smallest)).toMatch(/skipped on \(21\)/);
    });

    it('proves its limit on a stand', () => {
      const failing = (onto: number, way: boolean) =>
        seen((cog, larger) => (larger === way && cog === onto ? { late: 0.5 } : {}));
      const [short, offSmallest] = [failing(11, true), failing(1, true)];
      for (const [cause, rides, keepOff, onto] of [
        ['low-limit-tight', short, largest, '45 onto the 51'],
        ['low-limit-loose', everywhere, largest, '45 onto the 51'],
        ['high-limit-loose', everywhere, smallest, '12 onto the 10'],
        ['high-limit-tight', failing(0, false), smallest, '12 onto the 10'],
        ['cable-tension-low', offSmallest, smallest, '12 onto the 10 and back,'],
        ['cable-tension-low', offSmallest, both, '12 onto the 10 and back,'],
        ['cable-tension-high', failing(10, false), largest, '45 onto the 51 and back,'],
        ['cable-tension-high', failing(10, false), both, '45 onto the 51 and back,'],
      ] as const) {
        const asked = verifyStep(cause, rides, keepOff);
        expect(asked).toMatch(new RegExp(`shifts from the ${onto} on a stand, turning the cranks by hand`));
        expect(asked).not.toMatch(/next ride/);
      }
      expect(verifyStep('hanger-bent', offSmallest, smallest)).toMatch(
        /^Once the hanger is in order and the limit is set, make at least \d+ shifts from the 12 onto the 10 and back,/,
      );
      expect(verifyStep('low-limit-loose', everywhere, smallest)).toMatch(/45 onto the 51 on the next ride, softly/);
    });
  });
});

it('asks an end cog for as many more shifts as its entry does: until it is decided that its limit holds', () => {
  const tried = (reached: number, lost: number) => ({ asked: reached, shifts: reached, reached, trouble: 0, lost });
  const trial = { end: 'past-smallest', fromMs: 1, before: tried(4, 3), since: tried(2, 0), holds: 0.7 } as const;
  const trials = { 'past-largest': { ...trial, end: 'past-largest' } as const, 'past-smallest': trial };
  const more = triesStillNeeded(trial.before, trial.since, DECIDED_AT);
  expect(more).toBeGreaterThan(3);
  for (const keepOff of [new Set(['past-smallest'] as const), new Set<'past-smallest'>()])
    expect(verifyStep('high-limit-loose', onlyLarger, keepOff, trials)).toMatch(
      new RegExp(` ${more} more shifts onto it .* would show that the chain is no longer lost past it\\.$`),
    );
});

it('asks for as many shifts on rides before the screw is turned as right after it, when nothing was ridden between', () => {
  const tried = (reached: number, lost: number) => ({ asked: reached, shifts: reached, reached, trouble: 0, lost });
  const before = tried(14, 2);
  const askedFor = (fromMs: number | null) => {
    const trial = { end: 'past-largest', fromMs, before, since: tried(0, 0), holds: 0.5 } as const;
    const trials = { 'past-largest': trial, 'past-smallest': { ...trial, end: 'past-smallest' } as const };
    const lost = observe([patternRide({ pattern: healthyPattern, drops: [['past-largest', 11]] })], cableBike);
    return /(\d+) shifts onto it on purpose/.exec(
      verifyStep('low-limit-loose', lost, new Set(['past-largest']), trials),
    )?.[1];
  };
  expect(askedFor(1)).toBe(String(triesStillNeeded(before, tried(0, 0), DECIDED_AT)));
  expect(askedFor(null)).toBe(askedFor(1));
});
