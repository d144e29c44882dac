import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { goneWithSoftLegs, weighRider } from '../../src/diagnosis/posterior/rider-load.ts';
import { cableBike, patternRide } from './pattern-ride.ts';

/** What is said where trouble falls on every shift of the given torques, of 10 to 60 Nm in turn. */
function sentence(wrong: (torqueNm: number) => boolean, adjustments: readonly Adjustment[] = []): string {
  const ride = patternRide({ pattern: () => ({}), torque: (i) => 10 * (1 + (i % 6)) });
  const shifts = ride.events.shifts.map((shift) =>
    wrong(shift.torqueNm) ? ({ ...shift, outcome: 'late' } as const) : shift,
  );
  const rides = [{ ...ride, events: { ...ride.events, shifts } }];
  return weighRider([], buildEvidence({ bike: cableBike, rides, adjustments })).sentence;
}

describe('shifts under the hardest and the lightest pedalling', () => {
  it('are told with what to make of them, and only where they plainly differ', () => {
    expect(sentence((torqueNm) => torqueNm > 50)).toMatch(/ease off .* before any part is touched\.$/);
    const turned = { parameter: 'cable-tension', amount: 2, unit: 'clicks', note: '' } as const;
    const after = patternRide({ pattern: () => ({}) }).startMs + 86_400_000;
    expect(sentence((torqueNm) => torqueNm > 50, [{ ...turned, at: new Date(after).toISOString() }])).toMatch(
      /ease off .* before any more is turned\.$/,
    );
    let turn = 0;
    expect(sentence((torqueNm) => torqueNm > 50 || turn++ % 8 === 0)).toMatch(
      /onto the same cogs too load made it worse, so ease off .*, whatever the cause\.$/,
    );
    expect(sentence(() => false)).toBe('');
    expect(sentence((torqueNm) => torqueNm < 20)).toBe('');
    let met = 0;
    // two of 44 against none: as good as chance
    expect(sentence((torqueNm) => torqueNm > 50 && met++ < 2)).toBe('');
  });
});

describe('a bike that was cured since', () => {
  it('is told by the shifts before its cure: hard pedalling had nothing to spoil after it', () => {
    const cure = { parameter: 'cable-tension', amount: 2, unit: 'clicks', note: '' } as const;
    const torque = (i: number): number => 10 * (1 + (i % 6));
    const [failing, cured] = [0, 2].map((day) => patternRide({ pattern: () => ({}), torque, day }));
    const spoil = (ride: typeof failing, wrong: (torqueNm: number) => boolean) => ({
      ...ride,
      events: {
        ...ride.events,
        shifts: ride.events.shifts.map((shift) =>
          wrong(shift.torqueNm) ? { ...shift, outcome: 'late' as const } : shift,
        ),
      },
    });
    const between = [{ ...cure, at: new Date(failing.startMs + 86_400_000).toISOString() }];
    const rateOf = (rides: (typeof failing)[]) =>
      weighRider([], buildEvidence({ bike: cableBike, rides, adjustments: between })).troubleRateHighTorque;
    const hard = (torqueNm: number): boolean => torqueNm > 50;
    expect(rateOf([spoil(failing, hard), cured])).toBe(1);
    // where both periods fail, both count
    expect(rateOf([spoil(failing, hard), spoil(cured, (torqueNm) => torqueNm === 50)])).toBeLessThan(1);
  });
});

/** A ride in which the largest cog is mostly shifted onto under hard pedalling, and goes wrong at every second shift whatever the load, as do those that `legs` spoils. */
function stopsShort(legs: (torqueNm: number) => boolean) {
  const ride = patternRide({ pattern: () => ({}), shifts: 24, torque: (i) => 10 + 5 * (i % 10) });
  const largest = cableBike.cassette.length - 1;
  let met = 0;
  const shifts = ride.events.shifts.map((shift) => {
    const onto = shift.toCog === largest;
    const torqueNm = onto ? (met++ % 6 < 4 ? 60 : 12) : shift.torqueNm;
    const wrong = (onto && met % 2 === 0) || legs(torqueNm);
    return wrong ? { ...shift, torqueNm, outcome: 'late' as const } : { ...shift, torqueNm };
  });
  const rides = [{ ...ride, events: { ...ride.events, shifts } }];
  const evidence = buildEvidence({ bike: cableBike, rides, adjustments: [] });
  return { rider: weighRider([], evidence), gone: goneWithSoftLegs(evidence) };
}

describe('a cog that fails and is mostly shifted onto under load', () => {
  it('is no sign that load made it worse', () => {
    const { rider, gone } = stopsShort(() => false);
    expect(rider.troubleRateHighTorque).toBeGreaterThan(4 * rider.troubleRateLowTorque!);
    expect(rider).toMatchObject({ sentence: '', goneWithSoftLegs: false });
    expect(gone).toBe(false);
  });

  it('hides no load that makes all cogs worse', () => {
    let hard = 0;
    const { rider, gone } = stopsShort((torqueNm) => torqueNm > 50 && hard++ % 2 === 0);
    expect(rider.sentence).toMatch(/before any part is touched\.$/);
    expect(rider.goneWithSoftLegs).toBe(true);
    expect(gone).toBe(true);
  });
});
