import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { lost, slow } from './now/adjusted-bikes.ts';
import { bentHanger, cableBike, healthyPattern, type PatternRide, patternRide } from './pattern-ride.ts';

const { cassette } = cableBike;
const verdictOn = (ride: PatternRide): Diagnosis =>
  diagnose({ bike: cableBike, rides: [patternRide(ride)], adjustments: [] });

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

  it('is asked for no ride and no shift to tell what it is: there a look does', () => {
    expect([checkRide.blocks, checkRide.sentences]).toEqual([[], []]);
    expect(separates?.sentence ?? '').not.toMatch(/Shifts onto/);
  });
});

it('reads the cogs that a sentence asks for', () => {
  const verify = (where: string) => cogsToRide(`On the next ride make at least 9 shifts ${where}, softly, away.`);
  expect(verify('from the 45 onto the 51')).toContain(51);
  expect(verify('to larger cogs, onto the 12 to the 45')).toContain(10);
  expect(verify('in both directions over the whole cassette')).toEqual(cassette);
});
