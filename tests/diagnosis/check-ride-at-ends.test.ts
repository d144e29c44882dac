import { describe, expect, it } from 'vitest';
import { noCheckRide } from '../../src/diagnosis/check-ride/plan-check-ride.ts';
import { standFirst } from '../../src/diagnosis/check-ride/stand-first.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { CheckRideBlock } from '../../src/diagnosis/diagnosis.ts';
import { families, generateRides } from './event-generator.ts';
import { cableBike, cassette } from './pattern-ride.ts';

const [smallest, largest] = [cassette[0], cassette[cassette.length - 1]];

describe('a check ride where the rides say nothing of the end cogs', () => {
  // hardly ten of sixty shifts lead onto an end cog, and none went wrong: in order, or a limit that had no chance to show
  it.each(families)('leads onto them, after a look on a stand, however the fault shows (%s)', (family) => {
    const rides = generateRides({
      cause: 'no-fault',
      family,
      severity: 'severe',
      rides: 1,
      seed: 4,
      shiftsPerRide: 60,
    });
    const { causes, checkRide } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0]).toMatchObject({ cause: 'no-fault' });
    expect(causes[0].probability).toBeLessThan(0.5);
    const onto = new Set(checkRide.blocks.map(({ toTeeth }) => toTeeth));
    expect([onto.has(smallest), onto.has(largest)]).toEqual([true, true]);
    for (const { fromTeeth, toTeeth, load } of checkRide.blocks)
      if ([fromTeeth, toTeeth].some((teeth) => teeth === smallest || teeth === largest)) expect(load).toBe('soft');
    expect(checkRide.sentences[0]).toMatch(
      /^First turn the cranks by hand on a stand and shift onto the 10 and the 51/,
    );
  });
});

describe('standFirst', () => {
  const block = (fromTeeth: number, toTeeth: number): CheckRideBlock => ({
    ...{ count: 6, fromTeeth, toTeeth, load: 'soft' },
    direction: toTeeth > fromTeeth ? 'to-larger' : 'to-smaller',
  });
  const sentences = ['Six times.'];

  it('names the end cogs of the plan, and is silent without one', () => {
    const plan = { ...noCheckRide, sentences };
    expect(standFirst(plan, cassette).sentences).toEqual(sentences);
    const middle = { ...plan, blocks: [block(cassette[3], cassette[4]), block(cassette[4], cassette[3])] };
    expect(standFirst(middle, cassette).sentences).toEqual(sentences);
    const end = { ...plan, blocks: [block(cassette[1], smallest), block(smallest, cassette[1])] };
    expect(standFirst(end, cassette).sentences).toEqual([
      expect.stringMatching(/onto the 10: ride only/),
      ...sentences,
    ]);
  });
});
