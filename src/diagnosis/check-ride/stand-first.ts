import type { CheckRide } from '../diagnosis.ts';

/**
 * The plan with a look on a stand before everything else where it leads onto an end cog: nobody rides there to see whether a limit is right
 * before the chain stayed on by hand (common practice, no source).
 */
export function standFirst(plan: CheckRide, cassette: readonly number[]): CheckRide {
  const ridden = new Set(plan.blocks.map(({ toTeeth }) => toTeeth));
  const ends = [cassette[0], cassette[cassette.length - 1]].filter((teeth) => ridden.has(teeth));
  if (ends.length === 0) return plan;
  const cogs = ends.map((teeth) => `the ${teeth}`).join(' and ');
  const look = `First turn the cranks by hand on a stand and shift onto ${cogs}: ride only if the chain stays on there.`;
  return { ...plan, sentences: [look, ...plan.sentences] };
}
