import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { cableBike, healthyPattern, patternRide } from './pattern-ride.ts';

const loses = [['past-largest', 11] as const, ['past-largest', 11] as const];
const ride = (day: number, drops = loses) => patternRide({ day, pattern: healthyPattern, drops });
const rides = [ride(2), ride(4)];
const made = (day: number, parameter: Adjustment['parameter'], amount: number | null = 0): Adjustment => {
  const unit = amount === null || parameter === 'hanger' ? 'done' : 'turns';
  return { at: new Date(Date.UTC(2026, 4, day, 20)).toISOString(), parameter, amount, unit, note: '' };
};
const verdict = (adjustments: Adjustment[], ridden = rides): Diagnosis =>
  diagnose({ bike: cableBike, rides: ridden, adjustments });
const likely = ({ causes }: Diagnosis, asked: Cause): number =>
  causes.find(({ cause }) => cause === asked)?.probability ?? Number.NaN;
const firstDay = new Date(rides[0].startMs).getUTCDate();
const lastDay = new Date(rides[1].startMs).getUTCDate();
const [unseen, limit] = [verdict([]), verdict([made(lastDay, 'low-limit')])];
const both = verdict([made(lastDay, 'low-limit'), made(lastDay, 'hanger')]);

describe('a limit that lost chains and was looked at since', () => {
  it('loses weight to the hanger, which gets it back once it was looked at too', () => {
    expect(unseen.causes[0].cause).toBe('low-limit-loose');
    expect(likely(limit, 'low-limit-loose')).toBeLessThan(likely(unseen, 'low-limit-loose') - 0.05);
    expect(likely(limit, 'hanger-bent')).toBeGreaterThan(2 * likely(unseen, 'hanger-bent'));
    expect(likely(both, 'hanger-bent')).toBeLessThan(likely(limit, 'hanger-bent'));
    expect(limit.comparisons).toEqual([]);
  });

  it('is not asked to be looked at again: the hanger is, and then what lies beyond both', () => {
    const looks = ({ suggestion }: Diagnosis): string => `${suggestion.action} ${suggestion.start}`;
    expect(looks(unseen)).toMatch(/the guide pulley should stop straight below the largest cog/);
    expect(unseen.suggestion.cautions.join(' ') + unseen.suggestion.start).toMatch(/keep off the largest cog/i);
    for (const one of [limit, both]) {
      expect(looks(one)).not.toMatch(/the guide pulley should stop/);
      expect(one.suggestion.cautions.join(' ')).toMatch(/keep off the largest cog/i);
      expect(one.suggestion.sense).toBeNull();
    }
    expect(limit.suggestion.action).toMatch(/^Leave the low limit screw as it is: .* Have the hanger gauged:/);
    expect(both.suggestion.action).toMatch(/^Leave the .* and the .* as they are: .* spacer .* lockring/);
  });

  it('is named together with the hanger until that was looked at', () => {
    expect([unseen, limit, both].map(({ limitOrHanger }) => limitOrHanger)).toEqual([true, true, false]);
  });

  it('counts as not looked at where it was before the first ride, or something set it anew meanwhile', () => {
    const { causes, suggestion } = verdict([made(firstDay - 1, 'low-limit')]);
    expect([causes, suggestion]).toEqual([unseen.causes, unseen.suggestion]);
    const turned = made(firstDay, 'low-limit', 0.25);
    const without = verdict([turned]);
    expect(likely(verdict([turned, made(lastDay, 'low-limit')]), 'low-limit-loose')).toBeCloseTo(
      likely(without, 'low-limit-loose'),
      6,
    );
  });

  it('is looked at again where a chain was lost past it since', () => {
    const again = verdict([made(firstDay, 'low-limit')]);
    expect(again.suggestion.action).toMatch(/the guide pulley should stop straight below the largest cog/);
  });
});

describe('a limit found right in the sitting in which the hanger was aligned', () => {
  const entry = (hour: number, parameter: Adjustment['parameter'], amount: number | null): Adjustment => ({
    ...made(lastDay, parameter, amount),
    at: new Date(Date.UTC(2026, 4, lastDay, hour)).toISOString(),
  });
  const since = [...rides, ride(lastDay + 2, [])];
  const [aligned, found] = [entry(20, 'hanger', null), (hour: number) => entry(hour, 'low-limit', 0)];
  const alone = verdict([aligned], since);
  const odds = (one: Diagnosis): number => likely(one, 'low-limit-loose') / (1 - likely(one, 'low-limit-loose'));
  const inEitherOrder = [19, 20, 21].map((hour) => verdict([aligned, found(hour)], since));

  it('counts, and stands, the same in whichever order the two were logged', () => {
    for (const one of inEitherOrder) {
      expect(odds(one)).toBeLessThan(odds(alone) / 3);
      expect(one.causes.map(({ probability }) => probability)).toEqual(
        inEitherOrder[0].causes.map(({ probability }) => probability),
      );
      expect(one.suggestion).toEqual(inEitherOrder[0].suggestion);
      expect(one.suggestion.steps.join(' ')).not.toMatch(/See on a stand how far the low limit/);
      expect(one.separates?.sentence ?? '').not.toContain('hanger gauge');
    }
  });

  it('says nothing of a ride between the two', () => {
    const between = [...since, ride(lastDay + 3)];
    const later = (day: number) => ({ ...found(20), at: new Date(Date.UTC(2026, 4, day, 20)).toISOString() });
    const parted = verdict([{ ...aligned, at: later(lastDay + 3).at }, found(20)], between);
    expect(parted.now.foundRight).toBe(false);
  });
});
