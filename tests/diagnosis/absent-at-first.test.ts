import { expect, it } from 'vitest';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { absentAtFirst } from '../../src/diagnosis/posterior/absent-at-first.ts';
import { faultOnset } from '../../src/diagnosis/posterior/onset.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';
import { cableBike, type Pattern, patternRide } from './pattern-ride.ts';

const evidence = (...late: number[]) =>
  buildEvidence({
    bike: cableBike,
    rides: late.map((share, day) =>
      patternRide({ day, pattern: (_, larger): Pattern => (larger ? { late: share } : {}) }),
    ),
    adjustments: [],
  });
const toLarger = (_: number, direction: string): boolean => direction === 'to-larger';
const everyShift = (): boolean => true;

it('a ride of next to no trouble before rides of plenty does not show a fault', () => {
  expect(absentAtFirst(evidence(0, 0.25, 0.25), toLarger)).toBe(true);
  expect(absentAtFirst(evidence(0.25, 0.25, 0.25), toLarger)).toBe(false);
  expect(absentAtFirst(evidence(0.25, 0.25, 0), toLarger)).toBe(false);
  expect(absentAtFirst(evidence(0), everyShift)).toBe(false);
});

it('is held only against shifts that the fault shows in, as far as the first ride has any', () => {
  const rides = evidence(0, 0.25, 0.25);
  expect(absentAtFirst(rides, (_, direction) => direction === 'to-smaller')).toBe(false);
  expect(absentAtFirst(rides, () => false)).toBe(true);
});

it('a fault that the first ride does not show is not said to have been there from it on', () => {
  const steady = { cause: 'cable-tension-low', onset: { kind: 'steady' } } as unknown as Particle;
  const onset = (...late: number[]) => faultOnset([steady], 'cable-tension-low', evidence(...late), toLarger).kind;
  expect(onset(0.25, 0.25)).toBe('steady');
  expect(onset(0, 0.25)).toBe('unknown');
});
