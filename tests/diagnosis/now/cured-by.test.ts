import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { curedBy } from '../../../src/diagnosis/now/cured-by.ts';
import { healthyPattern } from '../pattern-ride.ts';
import { adjustedBike, slow, type Turn, turned } from './adjusted-bikes.ts';

const made = (day: number, turn: Turn, group: number, cancelledOut = false) => ({
  ...turned(day, turn),
  ...{ group, cancelledOut },
});

describe('a cure', () => {
  it('is credited to the last thing done that touches the cause', () => {
    const clicks = made(1, ['cable-tension', 3], 0);
    const by = (...then: ReturnType<typeof made>[]): string => curedBy([clicks, ...then], ['cable-tension-low']);
    const credited = 'what was done on 2026-05-02 (cable tension +3 clicks)';
    expect(by()).toBe(credited);
    expect(by(made(3, ['chain', null], 1))).toBe(credited);
    expect(by(made(3, ['cable-tension', -3], 1, true), made(3, ['cable-tension', 3], 1, true))).toBe(credited);
    expect(by(made(3, ['cable-tension', 1], 1), made(3, ['chain', null], 1))).toBe(
      'what was done on 2026-05-04 (cable tension +1 click and chain replaced)',
    );
    expect(by(made(3, ['cable-tension', -1], 1))).toBe(
      `${credited} with what was taken back since (cable tension -1 click on 2026-05-04)`,
    );
    // taken back altogether it is no cure any more
    expect(by(made(3, ['cable-tension', -4], 1))).toBe('what was done on 2026-05-04 (cable tension -4 clicks)');
    expect(curedBy([clicks, made(3, ['chain', null], 1)], ['pulley-gap-large'])).toMatch(/\(chain replaced\)$/);
  });

  it('is credited to what surely left next to nothing of it, not to what was turned the same way after', () => {
    const by = (better: number, left: number | null, then = 0.6, thenLeft = 0.01): string => {
      const first = { ...made(1, ['cable-tension', 2], 0), probabilityBetter: better, after: { troubleRate: left } };
      const second = { ...made(5, ['cable-tension', 1], 1), probabilityBetter: then, after: { troubleRate: thenLeft } };
      return curedBy([first, second], ['cable-tension-low']);
    };
    expect(by(0.999, 0.011)).toBe('what was done on 2026-05-02 (cable tension +2 clicks)');
    const last = 'what was done on 2026-05-06 (cable tension +1 click)';
    expect(by(0.9, 0.011)).toBe(last);
    expect(by(0.999, 0.04)).toBe(last);
    expect(by(0.999, null)).toBe(last);
    expect(by(0.999, 0.011, 0.99)).toBe(last);
  });

  it('is counted from there, whatever chain came on or was turned and taken back since', () => {
    const bike = adjustedBike([
      { pattern: slow('to-larger') },
      { pattern: slow('to-larger') },
      { pattern: healthyPattern, after: ['cable-tension', 3] },
      { pattern: healthyPattern },
    ]);
    const since = (...more: readonly (readonly [day: number, turn: Turn, note?: string])[]) => {
      const adjustments = [...bike.adjustments, ...more.map(([day, turn]) => turned(day, turn))];
      const { now, suggestion } = diagnose({ ...bike, adjustments });
      return [now.setting, now.since.at, suggestion.action];
    };
    const cured = since();
    expect(cured[0]).toBe('cured');
    expect(cured[1]).toBe('2026-05-04T18:00:00.000Z');
    expect(cured[2]).toMatch(/what was done on 2026-05-04 \(cable tension \+3 clicks\) seems to have cured/);
    expect(since([5, ['chain', null]])).toEqual(cured);
    const fiddled = [-3, 3].map((amount): [number, Turn] => [5, ['cable-tension', amount]]);
    expect(since(...fiddled)).toEqual(cured);
  });

  it('leaves the evidence of the fault to the rides before it, whatever was turned later', () => {
    const rides = [
      { pattern: slow('to-larger') },
      { pattern: slow('to-larger') },
      { pattern: healthyPattern, after: ['cable-tension', 3] },
      { pattern: healthyPattern },
    ] as const;
    const told = (...more: Parameters<typeof adjustedBike>[0]) => {
      const { now, causes } = diagnose(adjustedBike([...rides, ...more]));
      expect(now.setting).toBe('cured');
      return causes[0].evidence;
    };
    const [counts] = told();
    expect(counts).toMatch(/^\d+ of 264 shifts to larger cogs were late or missed/);
    const after = told({ pattern: healthyPattern, after: ['cable-tension', 1] }, { pattern: healthyPattern });
    expect(after[0]).toBe(counts);
    expect(after).toContain('Counted in the rides before 2026-05-04, when it was put right.');
  });
});
