import { describe, expect, it } from 'vitest';
import { causes } from '../../src/diagnosis/causes.ts';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { posterior } from '../../src/diagnosis/posterior/posterior.ts';
import { weighCauses } from '../../src/diagnosis/posterior/weigh-causes.ts';
import { cogPitchMm } from '../../src/drivetrain/cog-pitch.ts';
import { cableBike, cassette, ridesOfGrowingFriction } from './pattern-ride.ts';

describe('weighing with other random draws', () => {
  it('names the same cause, also where the fault fits in a corner of its sizes alone', () => {
    const evidence = buildEvidence({ bike: cableBike, rides: ridesOfGrowingFriction(), adjustments: [] });
    const bike = { cassetteLength: cassette.length, cogPitchMm: cogPitchMm(cableBike), electronic: false };
    const friction = [20, 21, 22, 23, 24, 25, 26].map(
      (seed) => posterior(weighCauses(evidence, bike, seed))[causes.indexOf('cable-friction')],
    );
    expect(Math.min(...friction)).toBeGreaterThan(0.55);
    expect(Math.max(...friction) - Math.min(...friction)).toBeLessThan(0.35);
  });
});
