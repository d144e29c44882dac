import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { buildEvidence } from '../../../src/diagnosis/evidence/build-evidence.ts';
import { oneWayTrouble } from '../../../src/diagnosis/unexplained/one-way-trouble.ts';
import type { ShiftEvent } from '../../../src/shifts/ride-events.ts';
import { cableBike, patternRide } from '../pattern-ride.ts';

const input = (rides: ReturnType<typeof patternRide>[]) => ({ bike: cableBike, rides, adjustments: [] });

/** Shifts of one ride under 20 and 60 Nm in turn, with trouble (of 0.97 sureness, or another) where a rule says. */
function ridden(wrong: (shift: ShiftEvent) => boolean, sure = 0.97) {
  const ride = patternRide({ pattern: () => ({}), torque: (i) => (i % 2 === 0 ? 20 : 60) });
  const probability = { clean: 1 - sure, late: sure, missed: 0, overshot: 0 };
  const late = { outcome: 'late', crankRevs: 2.4, probability } as const;
  const shifts = ride.events.shifts.map((shift) => (wrong(shift) ? { ...shift, ...late } : shift));
  return oneWayTrouble(buildEvidence(input([{ ...ride, events: { ...ride.events, shifts } }])));
}

const everySixth = (): (() => boolean) => {
  let met = 0;
  return () => met++ % 6 === 0;
};

describe('shifts that fail one way', () => {
  it.each(['to-larger', 'to-smaller'] as const)('are a fault whichever it is: %s', (direction) => {
    const sixth = everySixth();
    expect(ridden((shift) => shift.direction === direction && sixth())).toBe(direction);
  });

  it('are none where those the other way fail as often, or few fail', () => {
    expect(ridden(everySixth())).toBeNull();
    let met = 0;
    expect(ridden(({ direction }) => direction === 'to-smaller' && met++ < 8)).toBeNull();
  });

  it('are none where each of them is hardly likelier wrong than clean', () => {
    const sixth = everySixth();
    expect(ridden(({ direction }) => direction === 'to-smaller' && sixth(), 0.52)).toBeNull();
  });

  it('are none where it is load that does it, and more shifts that way were ridden under load', () => {
    const ride = patternRide({ pattern: () => ({}), shifts: 24 });
    const late = { outcome: 'late', probability: { clean: 0.03, late: 0.97, missed: 0, overshot: 0 } } as const;
    let pressed = 0;
    const shifts = ride.events.shifts.map((shift, i): ShiftEvent => {
      const firm = (i * 7) % 10 < (shift.direction === 'to-larger' ? 8 : 1);
      if (firm) pressed++;
      return { ...shift, torqueNm: firm ? 60 : 20, ...(firm && pressed % 3 === 0 && late) };
    });
    const wrong = (direction: string) => shifts.filter((one) => one.direction === direction && one.outcome === 'late');
    expect(wrong('to-larger').length).toBeGreaterThan(4 * wrong('to-smaller').length);
    expect(oneWayTrouble(buildEvidence(input([{ ...ride, events: { ...ride.events, shifts } }])))).toBeNull();
  });
});

describe('the verdict on them', () => {
  const onBike = (shifts: number, late: number) =>
    diagnose(
      input([0, 2].map((day) => patternRide({ day, shifts, pattern: (_, larger) => (larger ? {} : { late }) }))),
    );

  it('is never undecided between a fault and none, also where no fault by itself is likelier than none', () => {
    const { causes, undecided, suggestion } = onBike(16, 0.06);
    expect(causes[0].cause).toBe('no-fault');
    expect(undecided).toEqual({
      between: ['cable-tension-high', 'cable-friction'],
      becauseOf: [],
      sentence:
        'Shifts to smaller cogs plainly fail more often than those the other way, so something is at fault; undecided whether it is too high a cable tension or friction in cable and housing.',
    });
    expect(suggestion.action).toMatch(/^Turn nothing yet: shifts to smaller cogs plainly fail .* which fault it is/);
    expect(suggestion.start).toMatch(/clicks clockwise at the barrel.*pull the bare cable by hand/);
  });
});
