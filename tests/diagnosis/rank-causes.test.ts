import { expect, it } from 'vitest';
import { causes } from '../../src/diagnosis/causes.ts';
import { observe } from '../../src/diagnosis/observed.ts';
import { rankCauses } from '../../src/diagnosis/sentences/rank-causes.ts';
import { adjustedBike, slow, verdictOn } from './now/adjusted-bikes.ts';

it('does not blame hard pedalling for what work on the bike put right', () => {
  const { bike, rides } = adjustedBike([{ pattern: slow('to-larger') }]);
  const said = (loadKnown: boolean, probabilityBetter: number): string => {
    const [{ evidence }] = rankCauses(
      causes.map((_, c) => (c === 1 ? 1 : 0)),
      {
        seen: observe(rides, bike),
        failsPlainly: { direction: 'to-larger', cog: null },
        loadKnown,
        comparisons: verdictOn([
          { pattern: slow('to-larger') },
          { pattern: () => ({}), after: ['cable-tension', 3] },
        ]).comparisons.map((one) => ({ ...one, probabilityBetter, together: null })),
      },
    );
    return evidence.find((sentence) => sentence.includes('plainly failed')) ?? '';
  };
  expect(said(false, 0.5)).toMatch(/No power was recorded, so hard pedalling may do it too/);
  expect(said(true, 0.5)).toMatch(/something was at fault, whatever it was\.$/);
  expect(said(false, 0.99)).toMatch(/something was at fault, whatever it was\.$/);
});
