import { describe, expect, it } from 'vitest';
import { losesPower } from '../../src/shifts/skips/loses-power.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

describe('the power about a run of records', () => {
  const SAGS_AT = 6;
  /** Whether it is lost in the records 6 and 7, where the power at some moments is other than 200 W. */
  const lost = (watts: Readonly<Record<number, number>>): boolean => {
    const seconds = Array.from({ length: 14 }, (_, second) => second);
    const log = madeLog({ speedMps: seconds.map(() => 6), cadenceRpm: seconds.map(() => 80) });
    return losesPower(
      { ...log, powerW: Float64Array.from(seconds, (second) => watts[second] ?? 200) },
      { start: SAGS_AT, end: SAGS_AT + 2 },
    );
  };

  it('is lost where one of them, or the one before, lies a third below the usual', () => {
    expect(lost({ [SAGS_AT]: 120 })).toBe(true);
    expect(lost({ [SAGS_AT + 1]: 120 })).toBe(true);
    expect(lost({ [SAGS_AT - 1]: 120 })).toBe(true);
    expect(lost({ [SAGS_AT]: 140 })).toBe(false);
    expect(lost({ [SAGS_AT + 2]: 0 })).toBe(false);
  });

  it('is set against the middle of the seconds before and after', () => {
    expect(lost({ [SAGS_AT]: 120, [SAGS_AT - 3]: 900, [SAGS_AT + 3]: 900 })).toBe(true);
    // a rider who eases off for longer loses nothing for a moment
    expect(
      lost({ [SAGS_AT]: 120, [SAGS_AT + 2]: 120, [SAGS_AT + 3]: 120, [SAGS_AT + 4]: 120, [SAGS_AT - 2]: 120 }),
    ).toBe(false);
  });

  it('is not lost where nobody measured it', () => {
    const none = Object.fromEntries(Array.from({ length: 14 }, (_, second) => [second, Number.NaN]));
    expect(lost(none)).toBe(false);
    expect(lost({ ...none, [SAGS_AT]: 20 })).toBe(false);
  });

  it('is known at the ends of a ride', () => {
    const log = madeLog({ speedMps: [6, 6, 6], cadenceRpm: [80, 80, 80] });
    const powerW = Float64Array.of(200, 60, 200);
    expect(losesPower({ ...log, powerW }, { start: 1, end: 2 })).toBe(true);
  });
});
