import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { bentHanger, cableBike, healthyPattern, patternRide, slowToLarger } from './pattern-ride.ts';

const undated = (ride: DiagnosisRide): DiagnosisRide => ({ ...ride, startMs: 0 });
const good = patternRide({ pattern: healthyPattern });
const bad = patternRide({ day: 1, pattern: slowToLarger, shifts: 10 });
const verdictOn = (rides: readonly DiagnosisRide[]) => diagnose({ bike: cableBike, rides, adjustments: [] });

describe('rides without a date', () => {
  it('give the same diagnosis in any order, for nobody knows which came first', () => {
    const [a, b, c] = [good, bad, patternRide({ pattern: healthyPattern, shifts: 6 })].map(undated);
    const first = verdictOn([a, b, c]);
    for (const rides of [
      [b, a, c],
      [c, b, a],
    ]) {
      const { causes, onset, suggestion, checkRide } = verdictOn(rides);
      for (const { cause, probability } of first.causes)
        expect(causes.find((one) => one.cause === cause)?.probability).toBeCloseTo(probability, 6);
      expect([onset, suggestion, checkRide]).toEqual([first.onset, first.suggestion, first.checkRide]);
    }
    expect(first.onset).toEqual({ kind: 'unknown', at: null, rideBeforeAt: null, probability: 0 });
    expect(first.suggestion.action).not.toMatch(/suddenly/);
  });

  it('are said to tell nothing of when a fault began, where there are others', () => {
    expect(verdictOn([undated(good), bad]).notes).toEqual([
      expect.stringMatching(/^A ride without a date has no place/),
    ]);
    expect(verdictOn([undated(bad)]).notes).toEqual([]);
  });

  it.each([
    ['with the fault', bentHanger],
    ['without it', healthyPattern],
  ])('%s take nothing from the day on which it began among the others', (_, pattern) => {
    const dated = [0, 1, 2, 3].map((day) => patternRide({ day, pattern: day < 2 ? healthyPattern : bentHanger }));
    const undatedRides = [30, 31, 32].map((shifts) => undated(patternRide({ shifts, pattern })));
    const { causes, onset } = verdictOn([...undatedRides, ...dated]);
    expect(causes[0].cause).toBe('hanger-bent');
    expect([onset.kind, onset.at?.slice(0, 10), onset.rideBeforeAt?.slice(0, 10)]).toEqual([
      'sudden',
      '2026-05-03',
      '2026-05-02',
    ]);
    expect(onset.probability).toBeGreaterThan(0.9);
  });
});
