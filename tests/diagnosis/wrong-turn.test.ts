import { describe, expect, it } from 'vitest';
import { slow, type Turn, verdictOn } from './now/adjusted-bikes.ts';
import { healthyPattern } from './pattern-ride.ts';

const sound = { pattern: healthyPattern };
const slowToLarger = { pattern: slow('to-larger', 0.15, 0.1) };
const wrong: Turn = ['cable-tension', -3];
const back: Turn = ['cable-tension', 3];

describe('a bike in order that is turned out of it', () => {
  const spoiled = [sound, sound, { ...slowToLarger, after: wrong }, slowToLarger] as const;

  it('has the fault that the turn made of it, which began with the turn and is taken back', () => {
    const { causes, onset, comparisons, suggestion } = verdictOn(spoiled);
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(causes[0].probability).toBeGreaterThan(0.5);
    expect(onset).toMatchObject({ kind: 'sudden' });
    expect(Date.parse(onset.at ?? '')).toBeGreaterThan(Date.parse(comparisons[0].at));
    expect(Date.parse(onset.rideBeforeAt ?? '')).toBeLessThan(Date.parse(comparisons[0].at));
    expect(suggestion.steps[0]).toMatch(/^First take back what was done on .*3 clicks anticlockwise/);
  });

  it('is in order again once the turn is taken back', () => {
    const { causes, suggestion } = verdictOn([...spoiled, { ...sound, after: back }, sound]);
    expect(causes[0].cause).toBe('no-fault');
    expect(causes[0].probability).toBeGreaterThan(0.5);
    expect(suggestion.parameter).toBe('none');
  });

  it('has no such fault where the turn spoiled nothing, nor where something else went wrong', () => {
    expect(verdictOn([sound, sound, { ...sound, after: wrong }, sound]).causes[0].cause).toBe('no-fault');
    const other = { pattern: slow('to-smaller', 0.15, 0.1) };
    const tensionLow = verdictOn([sound, sound, { ...other, after: wrong }, other]).causes.find(
      ({ cause }) => cause === 'cable-tension-low',
    );
    expect(tensionLow?.probability).toBeLessThan(0.1);
  });

  it('is told from one that had the fault before', () => {
    const failing = verdictOn([slowToLarger, slowToLarger, { ...slowToLarger, after: wrong }, slowToLarger]);
    expect(failing.causes.find(({ cause }) => cause === 'no-fault')?.probability).toBeLessThan(0.05);
    expect(failing.onset.kind).not.toBe('sudden');
  });
});
