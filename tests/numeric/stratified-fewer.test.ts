import { expect, it } from 'vitest';
import { type Stratum, stratifiedFewer } from '../../src/numeric/stratified-fewer.ts';
import checks from '../checks/statistics.json' with { type: 'json' };

const stratum = (bad: number, of: number, badAfter: number, ofAfter: number): Stratum => ({
  before: { bad, of },
  after: { bad: badAfter, of: ofAfter },
});

/** Slow twin: deals the bad cases of all strata out in every way. */
function dealt(strata: readonly Stratum[]): number {
  const seen = strata.reduce((sum, { after }) => sum + after.bad, 0);
  let [above, equal, all] = [0, 0, 0];
  const deal = (i: number, bad: number): void => {
    if (i === strata.length) {
      all++;
      if (bad > seen) above++;
      else if (bad === seen) equal++;
      return;
    }
    const { before, after } = strata[i];
    const cases = before.of + after.of;
    for (let mask = 0; mask < 2 ** cases; mask++) {
      const picked = Array.from({ length: cases }, (_, bit) => Math.floor(mask / 2 ** bit) % 2);
      if (picked.reduce((a, b) => a + b, 0) !== before.bad + after.bad) continue;
      deal(i + 1, bad + picked.slice(before.of).reduce((a, b) => a + b, 0));
    }
  };
  deal(0, 0);
  return (above + equal / 2) / all;
}

it('is the share of all ways to deal the bad cases out that put more of them after', () => {
  for (const strata of [
    [stratum(3, 3, 0, 3)],
    [stratum(1, 4, 2, 5), stratum(3, 4, 1, 3)],
    [stratum(0, 3, 2, 4), stratum(2, 5, 0, 2)],
  ])
    expect(stratifiedFewer(strata)).toBeCloseTo(dealt(strata), 10);
  expect(stratifiedFewer([stratum(3, 3, 0, 3)])).toBeCloseTo(0.975, 10);
});

it('is what two small tables give by hand', () => {
  // both bad of four before: 1 in 6 by chance; the one bad of two before: 1 in 2; so none after has 1 in 12, half of it counted
  expect(stratifiedFewer([stratum(2, 2, 0, 2), stratum(1, 1, 0, 1)])).toBeCloseTo(1 - 1 / 24, 10);
});

it('agrees with the published analysis of a table that turns round when pooled', () => {
  const { admissions } = checks;
  const strata = admissions.rows.map(([menIn, menOut, womenIn, womenOut]) =>
    stratum(menIn, menIn + menOut, womenIn, womenIn + womenOut),
  );
  // the exact test and the large-sample one differ by less than a hundredth in so large a table
  expect(2 * (1 - Math.max(stratifiedFewer(strata), 1 - stratifiedFewer(strata)))).toBeCloseTo(
    admissions.twoSided,
    admissions.digits,
  );
  const add = (key: 'before' | 'after', of: 'bad' | 'of'): number => strata.reduce((sum, one) => sum + one[key][of], 0);
  const pooled = stratum(add('before', 'bad'), add('before', 'of'), add('after', 'bad'), add('after', 'of'));
  expect(stratifiedFewer([pooled])).toBeGreaterThan(0.999999);
});

it('tells nothing where nothing was bad, or all of it on one side', () => {
  expect(stratifiedFewer([])).toBe(0.5);
  expect(stratifiedFewer([stratum(0, 40, 0, 9), stratum(5, 5, 0, 0)])).toBeCloseTo(0.5, 10);
});

it('does not take another share of the strata for a change', () => {
  // the bad cog was ridden ten times as often after; each cog by itself stayed as it was
  expect(stratifiedFewer([stratum(5, 10, 50, 100), stratum(0, 100, 0, 10)])).toBeCloseTo(0.5, 1);
});
