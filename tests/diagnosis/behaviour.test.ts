import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { CauseVerdict, Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { adjustmentSentences } from '../../src/diagnosis/sentences/story-sentences.ts';
import { diagnosisSchema } from '../../src/report/diagnosis-report-schema.ts';
import {
  bentHanger,
  cableBike,
  cassette,
  electronicBike,
  healthyPattern,
  type Pattern,
  type PatternRide,
  patternRide,
  slowToLarger,
} from './pattern-ride.ts';
import { probabilityOf } from './probability-of.ts';

const adjustment = (day: number, parameter: Adjustment['parameter'], amount: number | null): Adjustment => ({
  at: new Date(Date.UTC(2026, 4, 1 + day, 18)).toISOString(),
  parameter,
  amount,
  unit: ({ 'cable-tension': 'clicks', 'index-offset': 'steps', hanger: 'done', 'pulley-gap': 'turns' } as const)[
    parameter as 'cable-tension'
  ],
  note: '',
});

describe('little or no evidence', () => {
  it('gives priors, a wide offset and no part without any ride', () => {
    const verdict = diagnose({ bike: cableBike, rides: [], adjustments: [] });
    expect(verdict.causes[0].cause).toBe('no-fault');
    expect(verdict.causes[0].probability).toBeLessThan(0.5);
    expect(verdict.suggestion.parameter).toBe('none');
    expect(verdict.suggestion.action).toMatch(/too few judged shifts \(0\)/);
    expect(verdict.lateralOffsetMm.high - verdict.lateralOffsetMm.low).toBeGreaterThan(1);
    expect(verdict.onset).toEqual({ kind: 'unknown', at: null, rideBeforeAt: null, probability: 0 });
    expect(() => diagnosisSchema.parse(verdict)).not.toThrow();
  });

  it('names no part after a handful of shifts, even bad ones', () => {
    const ride = patternRide({ pattern: slowToLarger, shifts: 1 });
    const verdict = diagnose({ bike: cableBike, rides: [ride], adjustments: [] });
    expect(verdict.suggestion.parameter).toBe('none');
    expect(verdict.causes[0].probability).toBeLessThan(0.65);
  });

  it('ignores rides that can tell nothing', () => {
    const ride = { ...patternRide({ pattern: slowToLarger }), evidence: 'none' as const };
    expect(diagnose({ bike: cableBike, rides: [ride], adjustments: [] }).suggestion.action).toMatch(/\(0\)/);
  });

  it('believes a rider’s reactions much less than measured shifts', () => {
    const weak = diagnose({
      bike: cableBike,
      rides: [patternRide({ pattern: slowToLarger, weak: true })],
      adjustments: [],
    });
    const full = diagnose({ bike: cableBike, rides: [patternRide({ pattern: slowToLarger })], adjustments: [] });
    const quiet = diagnose({
      bike: cableBike,
      rides: [patternRide({ pattern: healthyPattern, weak: true })],
      adjustments: [],
    });
    const answered = probabilityOf(weak, 'cable-tension-low');
    expect(answered).toBeGreaterThan(1.3 * probabilityOf(quiet, 'cable-tension-low'));
    expect(answered).toBeLessThan(0.7 * probabilityOf(full, 'cable-tension-low'));
    expect(weak.suggestion.parameter).toBe('none');
    const healthySentences = weak.causes.find(({ cause }) => cause === 'no-fault')!.evidence.join(' ');
    expect(healthySentences).toMatch(/only the rider's reaction is known, which is weak/);
  });
});

describe('rides that show nothing', () => {
  it('leave nothing undecided and nothing to tell apart, and name no cog of an unknown drivetrain', () => {
    const rides = [patternRide({ shifts: 0, pattern: healthyPattern })];
    const { causes, undecided, separates, checkRide } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('no-fault');
    expect([undecided, separates]).toEqual([null, null]);
    expect(checkRide.blocks).not.toEqual([]);
    const unknown = diagnose({ bike: cableBike, rides, adjustments: [], cogsKnown: false });
    expect([unknown.checkRide.blocks, unknown.checkRide.sentences]).toEqual([[], []]);
  });
});

describe('rides in which hardly anything can be seen', () => {
  const ridden = (evidence: 'full' | 'ratio-only') => {
    const ride = patternRide({ shifts: 0, pattern: healthyPattern });
    const pedallingSByCog = Float64Array.from(cassette, () => 3000);
    return diagnose({
      bike: cableBike,
      rides: [{ ...ride, evidence, events: { ...ride.events, pedallingSByCog } }],
      adjustments: [],
    });
  };

  it('do not clear a part of what they cannot show: unasked shifts without commands', () => {
    const [unseen, watched] = [ridden('ratio-only'), ridden('full')];
    expect(unseen.weighed).toMatchObject({ rides: 1, judgedShifts: 0, events: 0, pedallingHours: 10 });
    const tension = (verdict: Diagnosis): number =>
      probabilityOf(verdict, 'cable-tension-low') / probabilityOf(verdict, 'no-fault');
    expect(tension(unseen)).toBeGreaterThan(1.2 * tension(watched));
  });
});

describe('the same input', () => {
  it('gives the same verdict, in any order of rides', () => {
    const rides = [0, 1, 2].map((day) => patternRide({ pattern: bentHanger, day }));
    const one = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(diagnose({ bike: cableBike, rides: [...rides].reverse(), adjustments: [] })).toEqual(one);
  });
});

describe('adjustments', () => {
  it('one that cured its fault counts for it, and nothing more is to be turned', () => {
    const rides = [0, 1, 3, 4].map((day) => patternRide({ day, pattern: day < 2 ? slowToLarger : healthyPattern }));
    const verdict = diagnose({ bike: cableBike, rides, adjustments: [adjustment(2, 'cable-tension', 4)] });
    expect(verdict.causes[0].cause).toBe('cable-tension-low');
    expect(probabilityOf(verdict, 'cable-tension-low')).toBeGreaterThan(0.8);
    expect(verdict.stillThere).toBeLessThan(0.25);
    expect(verdict.cured).toBe(true);
    expect(verdict.separates).toBeNull();
    expect(verdict.suggestion.parameter).toBe('none');
    expect(verdict.suggestion.action).toMatch(/seems to have cured too low a cable tension/);
    expect(verdict.causes[0].evidence.join(' ')).toMatch(
      /2026-05-03, cable tension \+4 clicks: \d+ of \d+ shifts went wrong before, \d+ of \d+ after: it helped/,
    );
  });

  it('one after which shifts still fail cured nothing, however much of a large fault it took away', () => {
    const slow =
      (late: number, missed: number) =>
      (_: number, larger: boolean): Pattern =>
        larger ? { late, missed } : {};
    const verdictAfter = (after: PatternRide['pattern'], clicks: number): Diagnosis => {
      const rides = [0, 1, 3, 4].map((day) => patternRide({ day, pattern: day < 2 ? slow(0.3, 0.5) : after }));
      return diagnose({ bike: cableBike, rides, adjustments: [adjustment(2, 'cable-tension', clicks)] });
    };
    const halved = verdictAfter(slow(0.2, 0.1), 6);
    // little is left of it, but the rides since fail
    const nearlyGone = verdictAfter(slow(0.06, 0.04), 4);
    expect(halved.stillThere).toBeGreaterThan(0.9);
    expect(nearlyGone.stillThere).toBeLessThan(0.25);
    for (const { causes, cured, suggestion } of [halved, nearlyGone])
      expect([causes[0].cause, cured, suggestion.parameter]).toEqual(['cable-tension-low', false, 'cable-tension']);
  });

  it('what was turned before the first ride says nothing of the fault that it found', () => {
    const rides = [2, 3].map((day) => patternRide({ day, pattern: slowToLarger }));
    const untouched = diagnose({ bike: cableBike, rides, adjustments: [] });
    for (const amount of [6, -3]) {
      const adjustments = [adjustment(0, 'cable-tension', amount)];
      const turned = diagnose({ bike: cableBike, rides, adjustments });
      expect(turned.cured).toBe(false);
      for (const { cause, probability: known } of untouched.causes)
        expect(Math.abs(probabilityOf(turned, cause) - known)).toBeLessThan(0.02);
    }
  });

  it('tension turned both ways without effect speaks for the hanger', () => {
    /** Half of what the hanger does: alone it is a weak sign. */
    const faint = (cog: number, larger: boolean, share: number): Pattern => {
      const { late = 0, missed = 0 } = bentHanger(cog, larger, share);
      return { late: late * 0.6, missed: missed * 0.6 };
    };
    const rides = [0, 2, 4].map((day) => patternRide({ day, pattern: faint }));
    const turned = [adjustment(1, 'cable-tension', 3), adjustment(3, 'cable-tension', -3)];
    const verdict = diagnose({ bike: cableBike, rides, adjustments: turned });
    expect(verdict.causes[0].cause).toBe('hanger-bent');
    for (const cause of ['cable-tension-low', 'cable-tension-high'] as const)
      expect(probabilityOf(verdict, cause)).toBeLessThan(0.03);
    expect(verdict.stillThere).toBeGreaterThan(0.9);
  });

  it('one that changed nothing counts against its cause', () => {
    const slow: Pattern = { late: 0.34 };
    const rides = [0, 2].map((day) => patternRide({ day, shifts: 4, pattern: (_, larger) => (larger ? slow : {}) }));
    const turned = diagnose({ bike: cableBike, rides, adjustments: [adjustment(1, 'cable-tension', 4)] });
    const untouched = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(probabilityOf(turned, 'cable-tension-low')).toBeLessThan(
      0.75 * probabilityOf(untouched, 'cable-tension-low'),
    );
  });

  it('one that nobody has ridden on since cures nothing yet, and asks for a ride before anything else is turned', () => {
    const rides = [0, 1].map((day) => patternRide({ day, pattern: bentHanger }));
    const { causes, stillThere, suggestion } = diagnose({
      bike: cableBike,
      rides,
      adjustments: [adjustment(5, 'hanger', null)],
    });
    expect([causes[0].cause, stillThere]).toEqual(['hanger-bent', 1]);
    expect(suggestion.action).toMatch(/^Ride before anything more is turned: .* 2026-05-06: derailleur hanger/);
    expect(suggestion.cautions.join(' ')).toMatch(/keep off the largest cog/);
  });

  it('says of each the same as the list of adjustments, however many came after it', () => {
    const rides = [0, 2, 4, 6, 8, 10].map((day) => patternRide({ day, shifts: 3, pattern: slowToLarger }));
    const turned = [1, 3, 5, 7, 9].map((day) => adjustment(day, 'cable-tension', 1));
    const verdict = diagnose({ bike: cableBike, rides, adjustments: turned });
    const { evidence } = verdict.causes.find(({ cause }) => cause === 'cable-tension-low') as CauseVerdict;
    expect(verdict.comparisons).toHaveLength(5);
    expect(verdict.comparisons.every(({ before, after }) => before.shifts > 0 && after.shifts > 0)).toBe(true);
    const said = adjustmentSentences('cable-tension-low', verdict.comparisons);
    expect(said).toHaveLength(5);
    for (const sentence of said) expect(evidence).toContain(sentence);
  });

  it('says that two between the same rides cannot be told apart', () => {
    const rides = [0, 3].map((day) => patternRide({ day, pattern: day < 2 ? slowToLarger : healthyPattern }));
    const both = [adjustment(1, 'cable-tension', 2), adjustment(2, 'hanger', null)];
    const verdict = diagnose({ bike: cableBike, rides, adjustments: both });
    expect(verdict.notes.join(' ')).toMatch(
      /Cable tension and derailleur hanger were changed with no judged shift between them/,
    );
  });

  it('compares nothing with an amount of 0, which says that a part was looked at', () => {
    const rides = [0, 2].map((day) => patternRide({ day, shifts: 3, pattern: day ? healthyPattern : slowToLarger }));
    const none = adjustment(1, 'cable-tension', 0);
    const { notes, comparisons } = diagnose({ bike: cableBike, rides, adjustments: [none] });
    expect(comparisons).toEqual([]);
    expect(notes).toEqual(diagnose({ bike: cableBike, rides, adjustments: [] }).notes);
  });

  it('counts once what is entered twice, and says so', () => {
    const rides = [0, 2].map((day) => patternRide({ day, shifts: 3, pattern: day ? healthyPattern : slowToLarger }));
    const once = adjustment(1, 'cable-tension', 2);
    const twice = diagnose({ bike: cableBike, rides, adjustments: [once, { ...once, note: 'again' }] });
    const { causes, comparisons } = diagnose({ bike: cableBike, rides, adjustments: [once] });
    expect([twice.causes, twice.comparisons]).toEqual([causes, comparisons]);
    expect(twice.comparisons.map(({ sharedPeriod }) => sharedPeriod)).toEqual([false]);
    expect(twice.notes.join(' ')).toMatch(/entered twice, the same each time, and counts once/);
    expect(twice.notes.join(' ')).not.toMatch(/cannot be told apart|changed twice/);
  });

  it('leaves out rides without a date, and says so', () => {
    const rides = [
      patternRide({ day: 0, pattern: slowToLarger }),
      { ...patternRide({ pattern: slowToLarger }), startMs: 12_000 },
    ];
    const verdict = diagnose({ bike: cableBike, rides, adjustments: [adjustment(2, 'cable-tension', 1)] });
    expect(verdict.notes.join(' ')).toMatch(/without a date/);
    expect(verdict.weighed).toMatchObject({ rides: 1, judgedShifts: 264, events: 0 });
    const undated = diagnose({ bike: cableBike, rides: rides.slice(1), adjustments: [adjustment(2, 'hanger', null)] });
    expect(undated.suggestion.start).toMatch(/without a date .* record it with its time, or leave the adjustments out/);
  });
});

describe('the rider', () => {
  it('is asked to ease off where trouble gathers at high torque', () => {
    const torque = (i: number): number => 15 + 3 * (i % 12);
    const rides = [0, 1].map((day) => {
      const ride = patternRide({ day, pattern: () => ({}), torque });
      const shifts = ride.events.shifts.map((shift, i) =>
        shift.torqueNm > 40 && i % 2 === 0
          ? { ...shift, outcome: 'late' as const, probability: { clean: 0.02, late: 0.97, missed: 0.01, overshot: 0 } }
          : shift,
      );
      return { ...ride, events: { ...ride.events, shifts } };
    });
    const { causes, riderPart, suggestion } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('no-fault');
    expect(riderPart.probability).toBeGreaterThan(0.5);
    expect(riderPart.troubleRateHighTorque!).toBeGreaterThan(riderPart.troubleRateLowTorque!);
    expect(suggestion.action).toMatch(/Ease off/);
    expect(suggestion.parameter).toBe('none');
  });

  it('cannot be judged without power', () => {
    const { riderPart } = diagnose({
      bike: cableBike,
      rides: [patternRide({ pattern: healthyPattern })],
      adjustments: [],
    });
    expect(riderPart.probability).toBe(0);
    expect(riderPart.sentence).toMatch(/too few shifts with power/i);
  });
});

describe('electronic actuation', () => {
  it('gets steps of index offset and no cable advice', () => {
    const rides = [0, 1].map((day) => patternRide({ day, pattern: slowToLarger }));
    const verdict = diagnose({ bike: electronicBike, rides, adjustments: [] });
    expect(verdict.causes[0].cause).toBe('cable-tension-low');
    expect(verdict.clicks).toMatchObject({ parameter: 'index-offset', unit: 'steps' });
    expect(verdict.suggestion.parameter).toBe('index-offset');
    expect(verdict.suggestion.action).toMatch(/inboard, one step at a time/);
    expect(JSON.stringify(verdict.suggestion)).not.toMatch(/cable|barrel|click/i);
    expect(probabilityOf(verdict, 'cable-friction')).toBeLessThan(0.01);
  });
});

describe('doubt', () => {
  /** Slow to smaller only, no creep, no overshoot: too much tension and friction both explain it. */
  const slowToSmaller = (slow: Pattern, shifts: number, ghosts: PatternRide['ghosts'] = []): Diagnosis => {
    const pattern = (_: number, larger: boolean): Pattern => (larger ? {} : slow);
    const rides = [0, 1].map((day) => patternRide({ day, shifts, pattern, ghosts }));
    return diagnose({ bike: cableBike, rides, adjustments: [] });
  };
  const firstTwo = ({ causes }: Diagnosis): Cause[] => causes.slice(0, 2).map(({ cause }) => cause);

  it('is shown where an assumption turns the verdict', () => {
    const verdict = slowToSmaller({ late: 0.1, missed: 0.2 }, 8);
    expect(firstTwo(verdict).sort()).toEqual(['cable-friction', 'cable-tension-high']);
    expect(verdict.undecided?.between).toEqual(firstTwo(verdict));
    expect(verdict.undecided?.becauseOf.length).toBeGreaterThan(0);
    expect(verdict.undecided?.sentence).toMatch(/^Undecided between .* and .*: both fit these rides, /);
    expect(verdict.causes[0].evidence.at(-1)).toMatch(/^If it is this, it was there from the first ride on/);
  });

  it('is not shown where none does: a chain that creeps to larger cogs tells too much tension from friction', () => {
    const creeping = [2, 4, 6, 8].map((cog) => [cog, cog + 1] as const);
    const verdict = slowToSmaller({ late: 0.2, missed: 0.05 }, 12, creeping);
    expect(verdict.causes[0].cause).toBe('cable-tension-high');
    expect(verdict.undecided).toBeNull();
    expect(verdict.causes[0].probability).toBeGreaterThan(2 * verdict.causes[1].probability);
  });

  /** Some shifts onto the few largest cogs late, too few of them to tell. */
  const slowOnLargest = (cog: number, larger: boolean): Pattern => (larger && cog > 8 ? { late: 0.3 } : {});

  it('plans a check ride that tells more than as many ordinary shifts', () => {
    const rides = [patternRide({ pattern: slowOnLargest, shifts: 3 })];
    const { checkRide } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(checkRide.expectedBits).toBeGreaterThan(checkRide.ordinaryBits);
    expect(checkRide.blocks.length).toBeGreaterThan(0);
    for (const { fromTeeth, toTeeth } of checkRide.blocks)
      expect(Math.abs(cassette.indexOf(fromTeeth) - cassette.indexOf(toTeeth))).toBe(1);
    expect(checkRide.sentences.join(' ')).toMatch(/[Ss]ix times from the \d+ to the \d+ and back, seated/);
    expect(checkRide.sentences.at(-1)).toMatch(/away from traffic/);
  });

  it('asks for pedalling under load on the most used cog where skips tell most, before any shifts', () => {
    const rides = [patternRide({ pattern: healthyPattern, skipsOn: [5, 5] })];
    const { checkRide, separates, causes } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes.slice(0, 2).map(({ cause }) => cause)).toContain('worn-drivetrain');
    expect(separates?.bySkips).toBe(true);
    // the made ride spends most time on cogs of index 2, 5, 8 and 11 alike
    expect(checkRide.sentences[0]).toMatch(
      /^Pedal for at least (thirty|forty-five) minutes in all on the 14, .* pressing firmly/,
    );
    const slow = [patternRide({ pattern: slowOnLargest, shifts: 3 })];
    const { sentences } = diagnose({ bike: cableBike, rides: slow, adjustments: [] }).checkRide;
    expect(sentences.join(' ')).toMatch(/times from/);
    expect(sentences.join(' ')).not.toMatch(/Pedal for/);
  });
});
