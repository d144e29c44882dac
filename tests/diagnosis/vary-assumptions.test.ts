import { expect, it } from 'vitest';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { heldProbability, posterior } from '../../src/diagnosis/posterior/posterior.ts';
import { varyAssumptions } from '../../src/diagnosis/posterior/sensitivity.ts';
import { weighCauses } from '../../src/diagnosis/posterior/weigh-causes.ts';
import { cogPitchMm } from '../../src/drivetrain/cog-pitch.ts';
import { adjustedBike, slow } from './now/adjusted-bikes.ts';
import { healthyPattern } from './pattern-ride.ts';

it('moves an assumption to no end of its range against which the rides themselves speak', () => {
  // one click cured it, so that clicks cannot be small ones
  const input = adjustedBike([
    { pattern: slow('to-larger', 0.3, 0.4) },
    { pattern: healthyPattern, after: ['cable-tension', 1] },
  ]);
  const { bike } = input;
  const weighed = weighCauses(buildEvidence(input), {
    cassetteLength: bike.cassette.length,
    cogPitchMm: cogPitchMm(bike),
    electronic: false,
  });
  const small = { name: 'clickMm', from: 0, to: 1 / 3 } as const;
  expect(heldProbability(weighed, small)).toBeLessThan(0.08);
  const ofClicks = varyAssumptions(weighed, posterior(weighed)).filter(({ meaning }) =>
    /one click moves/.test(meaning),
  );
  expect(ofClicks).toHaveLength(1);
});
