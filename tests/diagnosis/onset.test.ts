import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import {
  bentHanger,
  cableBike,
  healthyPattern,
  patternRide,
  ridesOfGrowingFriction,
  slowToLarger,
} from './pattern-ride.ts';

describe('onset', () => {
  it('a fault that came at once is dated, and the hanger is checked first', () => {
    const rides = [0, 1, 2, 3].map((day) => patternRide({ day, pattern: day < 2 ? healthyPattern : bentHanger }));
    const { causes, onset, suggestion } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('hanger-bent');
    expect(onset.kind).toBe('sudden');
    expect(onset.at?.slice(0, 10)).toBe('2026-05-03');
    expect(suggestion.parameter).toBe('hanger');
    expect(causes[0].evidence.join(' ')).toMatch(
      /began suddenly, between the ride of 2026-05-02 07:00 UTC and that of 2026-05-03 07:/,
    );
  });

  it('a ride that could not have shown the fault is not named as the last one without it', () => {
    const [first, second, third, fourth] = [0, 1, 2, 3].map((day) =>
      patternRide({ day, pattern: day < 2 ? healthyPattern : bentHanger }),
    );
    const silent = { ...second, events: { ...second.events, shifts: [] } };
    const { onset } = diagnose({ bike: cableBike, rides: [first, silent, third, fourth], adjustments: [] });
    expect([onset.kind, onset.at?.slice(0, 10)]).toEqual(['sudden', '2026-05-03']);
    expect(onset.rideBeforeAt?.slice(0, 10)).toBe('2026-05-01');
  });

  it('rides that go well after a cure do not move the day on which it began', () => {
    // so many rides are weighed with two of them joined: the shortest neighbours, one healthy and one not
    const rides = [0, 1, 2, 3, 5, 6, 7].map((day) =>
      patternRide({
        day,
        shifts: day === 1 || day === 2 ? 8 : 12,
        pattern: day === 2 || day === 3 ? slowToLarger : healthyPattern,
      }),
    );
    const adjustments = [
      { at: '2026-05-05T07:00:00Z', parameter: 'cable-tension', amount: 4, unit: 'clicks', note: '' } as const,
    ];
    const { onset, causes, cured } = diagnose({ bike: cableBike, rides, adjustments });
    expect([causes[0].cause, cured]).toEqual(['cable-tension-low', true]);
    expect([onset.kind, onset.at, onset.rideBeforeAt]).toEqual([
      'sudden',
      '2026-05-03T07:00:00.000Z',
      '2026-05-02T07:00:00.000Z',
    ]);
  });

  it('another fault that came at once still has the hanger looked at', () => {
    const rides = [0, 1, 2, 3].map((day) => patternRide({ day, pattern: day < 2 ? healthyPattern : slowToLarger }));
    const { causes, suggestion } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(suggestion.action).toMatch(/^First look for damage and have the hanger checked, since it began suddenly\./);
  });

  it('friction that grew is called gradual', () => {
    const { causes, onset } = diagnose({ bike: cableBike, rides: ridesOfGrowingFriction(), adjustments: [] });
    expect(causes[0].cause).toBe('cable-friction');
    expect(onset.kind).toBe('gradual');
  });
});
