import { describe, expect, it } from 'vitest';
import { type Cause, causes } from '../../../src/diagnosis/causes.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { buildEvidence } from '../../../src/diagnosis/evidence/build-evidence.ts';
import { observe } from '../../../src/diagnosis/observed.ts';
import { faultForSure } from '../../../src/diagnosis/unexplained/fault-for-sure.ts';
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

it('shifts that fail one way are no less a fault for the rides that go well after a cure', () => {
  const [failing, ...well] = [0, 2, 4, 6].map((day) =>
    patternRide({ day, shifts: 16, pattern: (_, larger) => (day === 0 && !larger ? { late: 0.2 } : {}) }),
  );
  const onlySmaller = well.map((ride) => {
    const shifts = ride.events.shifts.filter(({ direction }) => direction === 'to-smaller');
    return { ...ride, events: { ...ride.events, shifts } };
  });
  const rides = input([failing, ...onlySmaller]);
  const at = '2026-05-02T18:00:00Z';
  const replaced = { at, parameter: 'cable-and-housing', amount: null, unit: 'done', note: '' } as const;
  expect(oneWayTrouble(buildEvidence(rides))).toBeNull();
  expect(oneWayTrouble(buildEvidence({ ...rides, adjustments: [replaced] }))).toBe('to-smaller');
});

describe('the verdict on them', () => {
  const onBike = (shifts: number, late: number) =>
    diagnose(
      input([0, 2].map((day) => patternRide({ day, shifts, pattern: (_, larger) => (larger ? {} : { late }) }))),
    );

  it('is one of faults, each as likely as a bike in order leaves it, and says why', () => {
    const { causes, undecided, separates } = onBike(16, 0.06);
    expect(causes[0].cause).toBe('cable-tension-high');
    expect(causes[0].evidence).toContain(
      'Shifts to smaller cogs plainly failed more often than those the other way, as on no bike in order: something was at fault, whatever it was.',
    );
    expect(causes.find(({ cause }) => cause === 'no-fault')?.probability).toBeLessThan(0.011);
    expect(undecided?.between).toEqual(['cable-tension-high', 'cable-friction']);
    expect(separates?.between).toEqual(undecided?.between);
  });

  it('says of shifts to larger cogs that hard pedalling may do it too, where no power was recorded', () => {
    const rides = [0, 2].map((day) =>
      patternRide({ day, shifts: 16, pattern: (_, larger) => (larger ? { late: 0.2 } : {}) }),
    );
    const powered = rides.map((ride) => ({
      ...ride,
      events: { ...ride.events, shifts: ride.events.shifts.map((one, i) => ({ ...one, torqueNm: 20 + 10 * (i % 5) })) },
    }));
    const plainly = (of: typeof rides) => diagnose(input(of)).causes[0].evidence.find((said) => /plainly/.test(said));
    expect(plainly(powered)).toMatch(/something was at fault, whatever it was\.$/);
    expect(plainly(rides)).toMatch(/No power was recorded, so hard pedalling may do it too: ease off/);
  });

  it('mends nothing where the faults named are together less likely than the others', () => {
    const { causes, undecided, suggestion } = onBike(24, 0.04);
    expect(undecided?.between).toEqual([causes[0].cause, causes[1].cause]);
    expect(causes[0].probability + causes[1].probability).toBeLessThan(0.5);
    expect(suggestion.action).toMatch(/^Turn nothing yet: shifts to smaller cogs plainly fail .* which fault it is/);
  });
});

describe('what speaks for a bike in order', () => {
  const { events } = patternRide({ pattern: () => ({}) });
  const seen = observe([{ startMs: 0, durationS: 1, evidence: 'full', events }], cableBike);
  const share = (cause: Cause, p: Readonly<Partial<Record<Cause, number>>>) =>
    faultForSure(
      causes.map((one) => p[one] ?? 0),
      { direction: 'to-smaller', cog: null },
      seen,
    )[causes.indexOf(cause)];

  it('goes to the faults that show that way, as each is likely; others keep their own', () => {
    const p = { 'no-fault': 0.5, 'cable-friction': 0.2, 'cable-tension-high': 0.1, 'low-limit-loose': 0.2 };
    expect(share('no-fault', p)).toBeCloseTo(0.01);
    expect(share('cable-friction', p)).toBeCloseTo((0.79 * 2) / 3);
    expect(share('cable-tension-high', p)).toBeCloseTo(0.79 / 3);
    expect(share('low-limit-loose', p)).toBe(0.2);
  });
});
