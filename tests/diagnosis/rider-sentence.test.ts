import { describe, expect, it } from 'vitest';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { weighRider } from '../../src/diagnosis/posterior/rider-load.ts';
import { cableBike, patternRide } from './pattern-ride.ts';

/** What is said where trouble falls on every shift of the given torques, of 10 to 60 Nm in turn. */
function sentence(wrong: (torqueNm: number) => boolean): string {
  const ride = patternRide({ pattern: () => ({}), torque: (i) => 10 * (1 + (i % 6)) });
  const shifts = ride.events.shifts.map((shift) =>
    wrong(shift.torqueNm) ? ({ ...shift, outcome: 'late' } as const) : shift,
  );
  const rides = [{ ...ride, events: { ...ride.events, shifts } }];
  return weighRider([], buildEvidence({ bike: cableBike, rides, adjustments: [] })).sentence;
}

describe('shifts under the hardest and the lightest pedalling', () => {
  it('are told with what to make of them, and only where they plainly differ', () => {
    expect(sentence((torqueNm) => torqueNm > 50)).toMatch(/ease off .* before any part is touched\.$/);
    let turn = 0;
    expect(sentence((torqueNm) => torqueNm > 50 || turn++ % 8 === 0)).toMatch(
      /load made it worse, so ease off .*, whatever the cause\.$/,
    );
    expect(sentence(() => false)).toBe('');
    expect(sentence((torqueNm) => torqueNm < 20)).toBe('');
    let met = 0;
    // two of 44 against none: as good as chance
    expect(sentence((torqueNm) => torqueNm > 50 && met++ < 2)).toBe('');
  });
});
