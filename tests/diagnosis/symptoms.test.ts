import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { diagnosisSchema } from '../../src/report/diagnosis-report-schema.ts';
import symptoms from '../checks/symptoms.json' with { type: 'json' };
import { cableBike, electronicBike, healthyPattern, type PatternRide, patternRide } from './pattern-ride.ts';

/** What a row plays: shares of the shifts onto some cogs (all by default) in a direction, and other events. */
interface Played extends Omit<PatternRide, 'pattern' | 'shifts'> {
  readonly inOrder?: boolean;
  readonly shifts?: readonly { direction: string; onto?: readonly number[]; late?: number; missed?: number }[];
}

function rideOf({ inOrder, shifts = [], ...events }: Played): PatternRide {
  return {
    ...events,
    pattern: (cog, larger) =>
      shifts.find(
        ({ direction, onto }) => (direction === 'to-larger') === larger && (onto === undefined || onto.includes(cog)),
      ) ?? (inOrder ? healthyPattern(cog) : {}),
  };
}

const seen = Object.fromEntries(
  symptoms.rows.map(({ cause, played }) => [cause, rideOf(played as unknown as Played)]),
) as Record<Cause, PatternRide>;

const verdicts = new Map<Cause, Diagnosis>();
function verdictOf(cause: Cause): Diagnosis {
  const kept = verdicts.get(cause);
  if (kept) return kept;
  const rides = [0, 1].map((day) => patternRide({ ...seen[cause], day }));
  const verdict = diagnose({ bike: cableBike, rides, adjustments: [] });
  verdicts.set(cause, verdict);
  return verdict;
}

describe(`symptoms (${symptoms.source})`, () => {
  it.each(symptoms.rows)('$seen: $cause', ({ cause }) => {
    const verdict = verdictOf(cause as Cause);
    expect(verdict.causes[0].cause, JSON.stringify(verdict.causes.slice(0, 3))).toBe(cause);
    expect(verdict.causes.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 9);
    expect(verdict.causes).toHaveLength(12);
    expect(() => diagnosisSchema.parse(verdict)).not.toThrow();
  });

  it.each([
    ['cable-tension-low', 'cable-tension', /anticlockwise, one click at a time/],
    ['cable-tension-high', 'cable-tension', /clockwise, one click at a time/],
    ['low-limit-tight', 'low-limit', /straight below the largest cog/],
    ['low-limit-loose', 'low-limit', /straight below the largest cog/],
    ['high-limit-tight', 'high-limit', /a hair outside the smallest cog/],
    ['high-limit-loose', 'high-limit', /a hair outside the smallest cog/],
    ['pulley-gap-small', 'pulley-gap', /second largest cog/],
    ['pulley-gap-large', 'pulley-gap', /second largest cog/],
    ['hanger-bent', 'hanger', /no other adjustment cures it/],
    ['cable-friction', 'cable-and-housing', /before any indexing/],
    ['worn-drivetrain', 'chain', /chain checker/],
    ['no-fault', 'none', /Leave everything as it is/],
  ] as const)('%s: what to do (common practice, no source)', (cause, parameter, action) => {
    const { suggestion } = verdictOf(cause);
    expect(suggestion.parameter).toBe(parameter);
    expect(suggestion.action).toMatch(action);
    for (const text of [suggestion.start, suggestion.verify]) expect(text.length).toBeGreaterThan(10);
    expect(suggestion.cautions.join(' ')).toMatch(/away from traffic.*fingers.*qualified mechanic/s);
  });

  it('holds the trade facts of each step (common practice, no source)', () => {
    expect(verdictOf('pulley-gap-small').suggestion.start).toMatch(/about 3 mm/);
    expect(verdictOf('pulley-gap-small').suggestion.cautions.join(' ')).toMatch(/at sag/);
    expect(verdictOf('hanger-bent').suggestion.cautions.join(' ')).toMatch(/cracked hanger.*replaced and not bent/);
    expect(verdictOf('cable-friction').suggestion.cautions.join(' ')).toMatch(/settle.*tension again/);
    expect(verdictOf('high-limit-tight').suggestion.cautions.join(' ')).toMatch(
      /Release cable tension.*count the clicks/,
    );
    expect(verdictOf('low-limit-loose').suggestion.cautions.join(' ')).toMatch(/spokes: stop/);
    expect(verdictOf('high-limit-loose').suggestion.cautions.join(' ')).toMatch(/frame: stop/);
    for (const cause of ['low-limit-tight', 'pulley-gap-large', 'hanger-bent'] as const)
      expect(verdictOf(cause).suggestion.cautions.join(' ')).toMatch(/Check the indexing again/);
  });

  it('places the pulley on the right side', () => {
    const low = verdictOf('cable-tension-low');
    expect(low.lateralOffsetMm.high).toBeLessThan(0);
    expect(low.clicks.mean).toBeGreaterThan(0);
    const high = verdictOf('cable-tension-high');
    // friction leaves nearly the same trace, and no offset at rest: the interval holds that too
    expect(high.lateralOffsetMm.mean).toBeGreaterThan(0.2);
    expect(high.lateralOffsetMm.low).toBeGreaterThan(-0.2);
    expect(high.clicks.mean).toBeLessThan(0);
    const bent = verdictOf('hanger-bent').lateralErrorMm;
    expect(Math.sign(bent[1].mean)).toBe(-Math.sign(bent[10].mean));
    // where a bent hanger leaves the middle of the cassette is not known to the tenth of a millimetre
    const middle = verdictOf('hanger-bent').lateralOffsetMm;
    expect(middle.high - middle.low).toBeGreaterThan(0.1);
  });

  it('gives evidence in sentences with numbers', () => {
    expect(verdictOf('cable-tension-low').causes[0].evidence[0]).toBe(
      '88 of 264 shifts to larger cogs were late or missed, 0 of 264 to smaller.',
    );
    expect(verdictOf('low-limit-loose').causes[0].evidence[0]).toBe(
      'The chain was lost past the largest cog twice in 24 shifts asked for onto the 51, judged or not.',
    );
    for (const verdict of verdicts.values())
      for (const { evidence } of verdict.causes) expect(evidence.join(' ')).toMatch(/\d/);
  });

  it('asks for no ride where a danger is named or the verdict is as good as sure, nor for a healthy bike', () => {
    for (const cause of Object.keys(seen) as Cause[]) {
      const { causes, undecided, separates, checkRide } = verdictOf(cause);
      const sure = !undecided && causes[0].probability >= 0.85;
      const rideless = sure || cause === 'no-fault' || /loose|hanger/.test(cause);
      if (rideless) expect(checkRide.sentences, cause).toEqual([]);
      if (sure) expect(separates, cause).toBeNull();
      if (checkRide.blocks.length > 0) expect(separates?.sentence, cause).toMatch(/tell most/);
    }
    expect(verdictOf('high-limit-loose').checkRide).toEqual({
      blocks: [],
      sentences: [],
      expectedBits: 0,
      ordinaryBits: 0,
    });
  });

  it('says what would tell the two likeliest causes apart where that is open', () => {
    const rides = [patternRide({ pattern: (cog, larger) => (larger && cog > 8 ? { late: 0.3 } : {}), shifts: 3 })];
    const { separates, causes } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(separates?.between).toEqual([causes[0].cause, causes[1].cause]);
    expect(separates?.sentence).toMatch(/tell most/);
  });

  it('tells electronic actuation of no cable', () => {
    for (const cause of Object.keys(seen) as Cause[]) {
      const rides = [patternRide(seen[cause])];
      const { separates, suggestion } = diagnose({ bike: electronicBike, rides, adjustments: [] });
      const told = [separates?.sentence ?? '', ...Object.values(suggestion).flat()].join(' ');
      expect(told, cause).not.toMatch(/cable|barrel|click/i);
    }
  });
});
