import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { count, facts, seen } from './made-facts.ts';
import { cableBike, patternRide } from './pattern-ride.ts';

const troubled = { seen: seen({ all: count(600, 60) }) };
const rider = {
  ...facts().rider,
  goneWithSoftLegs: true,
  sentence: '44 of 65 shifts under the hardest pedalling went wrong, 4 of 164 under the lightest.',
};

describe('trouble that is gone with soft legs', () => {
  it('has the rider ease off before any part is touched', () => {
    const { steps, start, parameter } = suggest(facts({ ...troubled, rider }));
    expect(steps[0]).toMatch(/^First ease off for half a turn of the crank/);
    expect(steps[1]).toMatch(/^Measure the gap/);
    expect(start).toBe('Nothing needs to be turned before that ride.');
    expect(parameter).toBe('pulley-gap');
    expect(suggest(facts(troubled)).steps.join(' ')).not.toMatch(/ease off/i);
  });

  it('touches none where the bike may be in order', () => {
    const ranked = [
      { cause: 'no-fault', probability: 0.35 },
      { cause: 'cable-tension-low', probability: 0.2 },
    ] as const;
    const { steps, start, parameter } = suggest(facts({ ...troubled, ranked, rider }));
    expect(steps).toEqual(['Ease off for half a turn of the crank while shifting; no part needs to be touched.']);
    expect(start).toBe(rider.sentence);
    expect(parameter).toBe('none');
  });

  it('says nothing of a chain that is lost or skips', () => {
    for (const cause of ['worn-drivetrain', 'low-limit-loose'] as const) {
      const ranked = [{ cause, probability: 0.9 }];
      expect(suggest(facts({ ...troubled, ranked, rider })).steps.join(' ')).not.toMatch(/ease off/i);
    }
  });
});

describe('a rider who presses hard through shifts to larger cogs', () => {
  it('is told so before anything else, though those shifts plainly fail more often', () => {
    const torque = (i: number): number => 15 + 5 * (i % 18);
    const rides = [0, 1].map((day) => {
      const ride = patternRide({ day, pattern: () => ({}), shifts: 18, torque });
      let met = 0;
      const shifts = ride.events.shifts.map((shift) => {
        const larger = shift.direction === 'to-larger';
        const every = shift.torqueNm > 82 ? (larger ? 1.4 : 3) : shift.torqueNm > 57 ? (larger ? 6 : 15) : 1000;
        const spoiled = Math.floor((met + 1) / every) > Math.floor(met / every);
        met++;
        const probability = { clean: 0.02, late: 0.97, missed: 0.01, overshot: 0 };
        return spoiled ? { ...shift, outcome: 'late' as const, probability } : shift;
      });
      return { ...ride, events: { ...ride.events, shifts } };
    });
    const { suggestion, riderPart } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(riderPart.goneWithSoftLegs).toBe(true);
    expect(riderPart.sentence).toMatch(/before any part is touched\.$/);
    expect(suggestion.action).toMatch(/^(First ease|Ease) off for half a turn/);
  });
});
