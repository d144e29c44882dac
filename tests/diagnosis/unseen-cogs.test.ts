import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { cableBike, cassette, healthyPattern, patternRide } from './pattern-ride.ts';

/** Every cog that the check ride, or what would tell the causes apart, names. */
const namedTeeth = ({ checkRide, separates }: ReturnType<typeof diagnose>): number[] => [
  ...checkRide.blocks.flatMap(({ fromTeeth, toTeeth }) => [fromTeeth, toTeeth]),
  ...[...checkRide.sentences, separates?.sentence ?? ''].flatMap((sentence) =>
    [...sentence.matchAll(/ the (\d+)/g)].map(([, teeth]) => Number(teeth)),
  ),
];

describe('cogs that no ride shows', () => {
  const slow = [patternRide({ pattern: (cog, larger) => (larger && cog > 8 ? { late: 0.3 } : {}), shifts: 3 })];
  const skipping = [patternRide({ pattern: healthyPattern, skipsOn: [5, 5] })];

  for (const rides of [slow, skipping])
    it('are named by no check ride and by nothing that would tell causes apart', () => {
      const all = namedTeeth(diagnose({ bike: cableBike, rides, adjustments: [] }));
      expect(all.length).toBeGreaterThan(0);
      const unseen = all.slice(0, 2);
      const unseenCogs = unseen.map((teeth) => cassette.indexOf(teeth));
      const named = namedTeeth(diagnose({ bike: cableBike, rides, adjustments: [], unseenCogs }));
      for (const teeth of unseen) expect(named).not.toContain(teeth);
      // the shifts go elsewhere; the stretch under load is on the cog used most, or nowhere
      if (rides === slow) expect(named).not.toEqual([]);
    });

  it('leave no check ride where no two neighbours are known', () => {
    const unseenCogs = [...cassette.keys()].filter((cog) => cog % 2 === 1);
    const { checkRide } = diagnose({ bike: cableBike, rides: slow, adjustments: [], unseenCogs });
    expect([checkRide.blocks, checkRide.sentences]).toEqual([[], []]);
  });
});
