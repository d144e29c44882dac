import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../../src/adjustments/adjustment.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import type { Diagnosis, DiagnosisRide } from '../../../src/diagnosis/diagnosis.ts';
import {
  cableBike,
  healthyPattern,
  type Pattern,
  type PatternRide,
  patternRide,
  slowToLarger,
} from '../pattern-ride.ts';
import { probabilityOf } from '../probability-of.ts';
import { turned } from './adjusted-bikes.ts';

describe('newest rides that shift well after trouble', () => {
  const wentOff = (late: PatternRide[]) => [0, 1].map((day, i) => patternRide({ day, ...late[i % late.length] }));
  const well = [3, 4].map((day) => patternRide({ day, pattern: healthyPattern }));
  const slow = wentOff([{ pattern: slowToLarger }]);

  it('are a reason to turn nothing and to ask what was done', () => {
    const { shiftsWellSince, suggestion, separates } = diagnose({
      bike: cableBike,
      rides: [...well, ...slow],
      adjustments: [],
    });
    expect(shiftsWellSince).toMatchObject({ at: '2026-05-04T07:00:00.000Z', adjusted: false });
    expect([suggestion.parameter, suggestion.namesCause, separates]).toEqual(['none', false, null]);
    expect(suggestion.action).toMatch(/^Turn nothing: the trouble hardly showed in the rides since 2026-05-04 \(/);
    expect(suggestion.start).toMatch(/log what and when/);
  });

  it('leave no doubt about what was amiss before, also after one ride of each and with a late shift or two among the newest', () => {
    const oneLate = patternRide({ day: 3, pattern: (cog, larger) => ({ late: cog === 5 && larger ? 0.1 : 0 }) });
    const some = (_: number, larger: boolean): Pattern => (larger ? { late: 0.15, missed: 0.075 } : {});
    const wrong = [0, 1].map((day) => patternRide({ day, pattern: some }));
    const right = [3, 4, 5, 6].map((day) => patternRide({ day, pattern: healthyPattern }));
    for (const rides of [
      [slow[0], well[0]],
      [...slow, well[0], oneLate],
      [...wrong, ...right],
    ]) {
      const verdict = diagnose({ bike: cableBike, rides, adjustments: [] });
      expect(verdict.causes[0].cause).toBe('cable-tension-low');
      expect(probabilityOf(verdict, 'no-fault')).toBeLessThan(0.1);
      expect(verdict.shiftsWellSince).not.toBeNull();
      expect(verdict.suggestion.parameter).toBe('none');
    }
  });

  it('have a logged adjustment that helped, though it is not the usual cure, named and checked', () => {
    const wrongSign = turned(2, ['cable-tension', -4]);
    const { suggestion } = diagnose({ bike: cableBike, rides: [...slow, ...well], adjustments: [wrongSign] });
    expect(suggestion.parameter).toBe('none');
    expect(suggestion.action).toMatch(
      /and it got better with what was done on 2026-05-03 \(cable tension -4 clicks\)\. It may come back\.$/,
    );
    expect(suggestion.start).toMatch(
      /^Ride before anything more is turned\. What was done is not the usual cure for .*: check its part, amount and sign/,
    );
  });

  it('are left as they are by what is done after them, which no ride tells of yet, unless it goes towards the fault again', () => {
    const verdict = (...adjustments: Adjustment[]): Diagnosis =>
      diagnose({ bike: cableBike, rides: [...slow, ...well], adjustments });
    const later = verdict(turned(5, ['hanger', null]));
    expect(later.shiftsWellSince).toEqual(verdict().shiftsWellSince);
    expect(later.suggestion.action).toBe(
      `${verdict().suggestion.action} No ride tells yet of what was done on 2026-05-06 (derailleur hanger aligned or replaced).`,
    );
    expect(later.suggestion.start).toMatch(/log what and when.* Try the shifts in question softly/);
    // as much again as cured it is none, as little as it takes back is
    const cure = turned(2, ['cable-tension', 3]);
    expect(verdict(cure).cured).toBe(true);
    expect(verdict(cure, turned(5, ['cable-tension', 3])).shiftsWellSince).toMatchObject({ entryAt: cure.at });
    const back = verdict(cure, turned(5, ['cable-tension', -3]));
    expect([back.shiftsWellSince, back.now.setting]).toEqual([null, 'untested']);
    expect(back.suggestion.action).toMatch(/^What was done on 2026-05-06 takes back what cured it/);
  });

  it('put down to a logged entry what it does by its part and sign, though less was to be expected of it', () => {
    const one = turned(2, ['cable-tension', 0.25]);
    const { shiftsWellSince } = diagnose({ bike: cableBike, rides: [...slow, ...well], adjustments: [one] });
    const wrongSign = turned(2, ['cable-tension', -1]);
    const other = diagnose({ bike: cableBike, rides: [...slow, ...well], adjustments: [wrongSign] });
    expect(shiftsWellSince).toMatchObject({ putRight: true, adjusted: true, entryAt: one.at });
    expect(other.shiftsWellSince).toMatchObject({ adjusted: true, entryAt: null });
  });

  it('are judged where the fault shows, and not by all the shifts that never failed', () => {
    const shortOfLargest = (cog: number, larger: boolean): Pattern =>
      cog === 11 && larger ? { late: 0.25, missed: 0.25 } : {};
    const ridden = (day: number, pattern: PatternRide['pattern'], ontoLargest: number): DiagnosisRide => {
      const ride = patternRide({ day, pattern });
      const onto = ride.events.shifts.filter(({ toCog }) => toCog === 11);
      const kept = new Set(onto.slice(0, ontoLargest));
      const shifts = ride.events.shifts.filter((shift) => shift.toCog !== 11 || kept.has(shift));
      return { ...ride, events: { ...ride.events, shifts } };
    };
    const fails = [0, 1].map((day) => ridden(day, shortOfLargest, 12));
    const verdict = (ontoLargest: number): Diagnosis =>
      diagnose({
        bike: cableBike,
        rides: [...fails, ridden(3, () => ({}), ontoLargest)],
        adjustments: [],
      });
    const [few, many] = [verdict(5), verdict(12)];
    expect([few, many].map(({ causes }) => causes[0].cause)).toEqual(['low-limit-tight', 'low-limit-tight']);
    expect([few.shiftsWellSince, few.suggestion.parameter]).toEqual([null, 'low-limit']);
    expect(many.shiftsWellSince).toMatchObject({ shifts: 264, there: { shifts: 12, trouble: 0 } });
    expect(many.suggestion.action).toMatch(/0 of 12 where it showed before/);
  });

  it('put nothing right where no fault was sure', () => {
    const some = (cog: number, larger: boolean): Pattern =>
      (cog % 2 === 0) === larger && cog > 2 && cog < 9 ? { missed: 0.17 } : {};
    const rides = [patternRide({ pattern: some }), ...[1, 2].map((day) => patternRide({ day, pattern: () => ({}) }))];
    const { causes, shiftsWellSince, suggestion } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('no-fault');
    expect(shiftsWellSince).toMatchObject({ putRight: false });
    expect(suggestion.action).not.toMatch(/put right/);
  });

  it('say nothing while they are too few, where trouble came back, or of a fault that shows too seldom to be missed', () => {
    const few = [patternRide({ day: 3, pattern: healthyPattern, shifts: 2 })];
    const back = [...well, patternRide({ day: 5, pattern: slowToLarger })];
    const drops = [['past-largest', 11]] as const;
    const seldom = wentOff([{ pattern: healthyPattern, drops }]);
    for (const rides of [[...slow, ...few], [...slow, ...back], [...seldom, ...well], well])
      expect(diagnose({ bike: cableBike, rides, adjustments: [] }).shiftsWellSince).toBeNull();
    const loose = diagnose({ bike: cableBike, rides: [...seldom, ...well], adjustments: [] });
    expect(loose.suggestion.parameter).toBe('low-limit');
  });
});
