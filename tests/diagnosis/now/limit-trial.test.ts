import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../../src/adjustments/adjustment.ts';
import { limitHolds } from '../../../src/adjustments/limit-holds.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import type { Diagnosis, DiagnosisRide } from '../../../src/diagnosis/diagnosis.ts';
import { isUnproven, limitTrial } from '../../../src/diagnosis/now/limit-trial.ts';
import { standsWhereLost } from '../../../src/diagnosis/now/stands-where-lost.ts';
import { cableBike, healthyPattern, type PatternRide, patternRide } from '../pattern-ride.ts';
import { lost, type Turn, turned } from './adjusted-bikes.ts';

const LAST = cableBike.cassette.length - 1;

/** A ride with only so many of its shifts onto the largest cog, and the rest as they are. */
function ride(day: number, ontoLargest: number, rest: Partial<PatternRide> = {}): DiagnosisRide {
  const made = patternRide({ pattern: healthyPattern, ...rest, day });
  let left = ontoLargest;
  const shifts = made.events.shifts.filter(({ toCog }) => toCog !== LAST || left-- > 0);
  return { ...made, events: { ...made.events, shifts } };
}

const loose = ride(0, 2, { drops: lost('past-largest', 1) });
const verdictAfter = (days: readonly DiagnosisRide[], ...turns: readonly Turn[]): Diagnosis =>
  diagnose({
    bike: cableBike,
    rides: [loose, ...days],
    adjustments: turns.map((turn, i) => turned(2 * i + 1, turn)),
  });
const inBy = (amount: number): Turn => ['low-limit', amount];
const words = ({ suggestion: { action, start, verify } }: Diagnosis): string => `${action} ${start} ${verify}`;

describe('the shifts that kept the chain before it was first lost', () => {
  const trialOf = (rides: readonly DiagnosisRide[]) =>
    limitTrial('past-largest', rides, [turned(5, ['low-limit', 0.5])], cableBike.cassette.length);
  const losing = ride(4, 4, { drops: lost('past-largest', 2) });

  it('are told from those after, on rides in order of time, so that a limit that came loose is sooner proved', () => {
    const [sound, after] = [ride(0, 12), ride(6, 10)];
    const trial = trialOf([losing, after, sound]);
    expect(trial.before).toMatchObject({ lost: 2, keptFirst: 12 });
    expect(trial.holds).toBeGreaterThan(limitHolds({ ...trial.before, keptFirst: 0 }, trial.since));
    expect(trialOf([losing, after]).before.keptFirst).toBe(0);
  });

  it('are weighed, and no part of what is told', () => {
    const { trial } = diagnose({
      bike: cableBike,
      rides: [ride(0, 12), losing, ride(6, 10)],
      adjustments: [turned(5, ['low-limit', 0.5])],
    }).now;
    expect(Object.keys(trial?.before ?? {}).sort()).toEqual(['asked', 'lost', 'reached', 'shifts', 'trouble']);
  });

  it('are none where a ride has no date', () => {
    const undated = { ...ride(0, 12), startMs: 0 };
    expect(trialOf([undated, losing, ride(6, 10)]).before.keptFirst).toBe(0);
  });
});

describe('a limit past which the chain was lost, screwed in', () => {
  it.each([0.25, 0.5, 1, 2, 3])(
    'is cured by %d turns once the chain has stayed on, and asks for nothing more',
    (amount) => {
      const verdict = verdictAfter([ride(2, 12), ride(4, 12), ride(6, 12)], inBy(amount));
      expect(verdict.causes[0].cause).toBe('low-limit-loose');
      expect([verdict.now.setting, verdict.cured, verdict.now.keepOff]).toEqual(['cured', true, []]);
      expect(verdict.stillThere).toBeLessThan(0.05);
      expect(verdict.suggestion.verify).toMatch(/the chain stayed on in 36 judged shifts onto the largest cog/);
      expect(words(verdict)).not.toMatch(/at least|check its part/);
    },
  );

  it('is tried on a stand first where nobody has been on its cog since, and the warnings stay', () => {
    for (const rides of [[], [ride(2, 0)]]) {
      const verdict = verdictAfter(rides, inBy(0.25));
      expect(verdict.now).toMatchObject({ setting: 'untested', keepOff: ['past-largest'] });
      expect(verdict.suggestion.start).toMatch(/^On a stand, .* Keep off the largest cog on any ride until/);
      expect(words(verdict)).not.toMatch(/shifts in question softly/);
      expect(verdict.suggestion.inspectFirst).toBe(true);
      // nobody knows: 1 says nothing
      expect(verdict.stillThere).toBe(1);
      const ridden = verdict.checkRide.blocks.flatMap(({ fromTeeth, toTeeth }) => [fromTeeth, toTeeth]);
      expect(ridden).not.toContain(51);
    }
  });

  it('counts as looked over once its hanger was seen to as well, but not where the screw was turned out', () => {
    const over = (...turns: Turn[]) => verdictAfter([ride(2, 1)], ...turns).now.lookedOver;
    expect(over(['hanger', null], inBy(0.25))).toEqual(['past-largest']);
    expect(over(['hanger', null], inBy(-0.25))).toEqual([]);
  });

  it('is not called cured after a shift, and says how often its cog was tried', () => {
    const verdict = verdictAfter([ride(2, 1), ride(4, 0)], inBy(0.25));
    expect(verdict.now).toMatchObject({
      setting: 'unsettled',
      keepOff: ['past-largest'],
      trial: { since: { shifts: 1 } },
    });
    expect(verdict.suggestion.action).toMatch(
      /past the largest cog before the last adjustment, and 1 shift that got there since/,
    );
    expect(verdict.suggestion.start).toMatch(/ten shifts onto the largest cog on a stand, .* Keep off the largest cog/);
  });

  it('is not cured by having been opened, however well it goes since', () => {
    const good = [ride(2, 12), ride(4, 12), ride(6, 12)];
    const opened = verdictAfter(good, inBy(-0.5));
    expect(opened.cured).toBe(false);
    expect(words(opened)).not.toMatch(/anticlockwise|cured/);
  });

  it('keeps its warning while something else is turned', () => {
    const { now, suggestion } = verdictAfter([], ['cable-tension', 1]);
    expect(now.keepOff).toEqual(['past-largest']);
    expect([suggestion.start, ...suggestion.cautions].join(' ')).toMatch(/keep off the largest cog/i);
  });
});

describe('limitTrial', () => {
  const trial = (rides: readonly DiagnosisRide[], ...turns: readonly (readonly [day: number, turn: Turn])[]) =>
    limitTrial(
      'past-largest',
      rides,
      turns.map(([day, turn]) => turned(day, turn)),
      cableBike.cassette.length,
    );

  it('begins with what was done after the last chain lost, and begins anew where the limit was opened', () => {
    const rides = [loose, ride(2, 12), ride(4, 3)];
    expect(trial(rides)).toMatchObject({ fromMs: null, holds: 0 });
    expect(trial(rides, [1, inBy(1)]).since.shifts).toBe(15);
    expect(trial(rides, [1, inBy(1)], [3, inBy(0.25)]).since.shifts).toBe(15);
    expect(trial(rides, [1, inBy(1)], [3, ['cable-tension', 2]]).since.shifts).toBe(15);
    const opened = trial(rides, [1, inBy(1)], [3, inBy(-0.25)]);
    expect([opened.since.shifts, isUnproven(opened)]).toEqual([3, true]);
    expect(isUnproven(trial(rides, [1, inBy(1)]))).toBe(false);
  });

  it('proves nothing where the chain was lost since, or on a ride without a date', () => {
    const again = ride(2, 12, { drops: lost('past-largest', 1) });
    expect(isUnproven(trial([loose, again], [1, inBy(1)]))).toBe(true);
    expect(isUnproven(trial([{ ...loose, startMs: 0 }, ride(2, 12)], [1, inBy(1)]))).toBe(true);
  });

  it('needs no proof of an end past which no chain was lost', () => {
    expect(isUnproven(trial([ride(0, 2)], [1, inBy(-1)]))).toBe(false);
  });
});

describe('a limit that was screwed in after a chain was lost, and out again', () => {
  const stands = (...made: Adjustment[]) => standsWhereLost('past-largest', [loose], made);
  const [inAt, outAt] = [turned(1, ['low-limit', 0.75]), turned(5, ['low-limit', -0.75])];

  it('stands where it let the chain past, or further out, whatever few shifts showed between', () => {
    expect(stands(inAt, outAt)).toEqual({
      ...{ end: 'past-largest', at: outAt.at, parameter: 'low-limit', unit: 'turns' },
      ...{ back: 0.75, furtherOut: false },
    });
    expect(stands(inAt, turned(5, ['low-limit', -1]))).toMatchObject({ back: 1, furtherOut: true });
    // as far as the numbers in the log add up
    expect(
      stands(turned(1, ['low-limit', 0.1]), turned(2, ['low-limit', 0.2]), turned(3, ['low-limit', -0.3]))?.back,
    ).toBe(0.3);
  });

  it('does not where it stands further in, was turned before the loss, or a part was set anew since', () => {
    expect(stands(inAt)).toBeNull();
    expect(stands(inAt, turned(5, ['low-limit', -0.5]))).toBeNull();
    expect(stands(inAt, outAt, turned(7, ['low-limit', 0.25]))).toBeNull();
    expect(stands(turned(-1, ['low-limit', -0.5]))).toBeNull();
    expect(stands(inAt, turned(3, ['hanger', null]), outAt)).toBeNull();
    expect(standsWhereLost('past-smallest', [loose], [inAt, outAt])).toBeNull();
  });

  it('is to be screwed in again before anything else, and nobody rides onto that cog', () => {
    const verdict = verdictAfter([ride(2, 4), ride(4, 0)], inBy(0.75), inBy(-0.75));
    expect([verdict.now.setting, verdict.now.keepOff]).toEqual(['untested', ['past-largest']]);
    const [first, then] = verdict.suggestion.steps;
    expect(first).toBe(
      'First take back what was done on 2026-05-04, since it set the low limit screw back to where the chain was lost past the largest cog: turn the low limit screw 0.75 turns clockwise.',
    );
    expect(then).toMatch(/then try the limit on a stand\. .* Keep off the largest cog on any ride/);
    expect(verdict.suggestion.start).toMatch(/^On a stand, at most a quarter of a turn at a time/);
    expect([verdict.suggestion.parameter, verdict.suggestion.sense]).toEqual(['low-limit', 1]);
    expect(words(verdict)).not.toMatch(/not asked for since/);
  });
});
