import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { lost, slow } from './now/adjusted-bikes.ts';
import { bentHanger, cableBike, healthyPattern, type PatternRide, patternRide } from './pattern-ride.ts';

const { cassette } = cableBike;
const verdictOn = (ride: PatternRide): Diagnosis =>
  diagnose({ bike: cableBike, rides: [patternRide(ride)], adjustments: [] });

/** Cogs onto or off which a sentence asks for a shift, in teeth; every larger or smaller one where it says so. */
function cogsAsked(sentence: string): number[] {
  return [...sentence.matchAll(/Shifts onto the (\d+) from (?:the (\d+)|(larger|smaller) cogs)/g)].flatMap(
    ([, onto, from, side]) => {
      const others = from
        ? [Number(from)]
        : cassette.filter((teeth) => (side === 'larger' ? teeth > Number(onto) : teeth < Number(onto)));
      return [Number(onto), ...others];
    },
  );
}

/** Cogs onto or off which the next ride is to verify a cure, in teeth; none where that is proved on a stand. */
function cogsToRide(verify: string): number[] {
  const ridden = verify.split(/(?<=\.) /).filter((sentence) => /next ride/.test(sentence));
  return ridden.flatMap((sentence) => {
    const whole = /whole cassette(?: but for the ([\d, and]+),)?/.exec(sentence);
    const but = (whole?.[1] ?? '').split(/\D+/);
    if (whole) return cassette.filter((teeth) => !but.includes(String(teeth)));
    const [, first, end] = /the (\d+) (?:onto|to) the (\d+)/.exec(sentence)?.map(Number) ?? [];
    const before = /to larger/.test(sentence) ? -1 : /to smaller/.test(sentence) ? 1 : 0;
    return [cassette[cassette.indexOf(first) + before], first, end];
  });
}

const bikes = [
  ['a bent hanger', { pattern: bentHanger }, 51],
  ['a bent hanger that loses the chain', { pattern: bentHanger, drops: lost('past-largest', 3) }, 51],
  ['a low limit too far out', { pattern: healthyPattern, drops: lost('past-largest', 1) }, 51],
  ['a high limit too far out', { pattern: healthyPattern, drops: lost('past-smallest', 2) }, 10],
  ['too low a tension with a chain lost', { pattern: slow('to-larger'), drops: lost('past-smallest', 1) }, 10],
] as const satisfies readonly (readonly [string, PatternRide, number])[];

describe.each(bikes)('%s', (_, ride: PatternRide, forbidden) => {
  const { suggestion, separates, checkRide } = verdictOn(ride);

  it('has a warning to keep off that end', () => {
    const end = forbidden === 51 ? 'largest' : 'smallest';
    expect([suggestion.start, suggestion.verify, ...suggestion.cautions].join(' ')).toMatch(
      new RegExp(`keep off (the ${end}|that) cog`, 'i'),
    );
  });

  it('is not sent onto an end cog past which the chain was lost, nor off it, to verify a cure', () => {
    for (const [side] of ride.drops ?? [])
      expect(cogsToRide(suggestion.verify)).not.toContain(side === 'past-largest' ? 51 : 10);
  });

  it('is asked for no shift onto that cog or off it, nor for a firm one beside it', () => {
    expect(cogsAsked(separates?.sentence ?? '')).not.toContain(forbidden);
    const beside = cassette.at(forbidden === 51 ? -2 : 1);
    for (const { fromTeeth, toTeeth, load } of checkRide.blocks) {
      expect([fromTeeth, toTeeth]).not.toContain(forbidden);
      if (load === 'firm') expect([fromTeeth, toTeeth]).not.toContain(beside);
    }
    if (/pressing firmly/.test(separates?.sentence ?? ''))
      for (const teeth of [beside, cassette.at(0), cassette.at(-1)])
        expect(cogsAsked(separates?.sentence ?? '')).not.toContain(teeth);
  });
});

it('reads the cogs that a sentence asks for', () => {
  const verify = (where: string) => cogsToRide(`On the next ride make at least 9 shifts ${where}, softly, away.`);
  expect(verify('from the 45 onto the 51')).toContain(51);
  expect(verify('to larger cogs, onto the 12 to the 45')).toContain(10);
  expect(verify('in both directions over the whole cassette')).toEqual(cassette);
  expect(cogsAsked('Shifts onto the 45 from larger cogs, pressing firmly, tell most')).toEqual([45, 51]);
  expect(cogsAsked('Shifts onto the 39 from the 33, soft on the pedals')).toEqual([39, 33]);
});
