import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../src/diagnosis/causes.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { bikeState as stateOf } from '../../../src/report/state/bike-state.ts';
import { sampleReport } from '../sample-report.ts';
import { quietReport } from './quiet-report.ts';

const bikeState = (report: Report) => stateOf(report, []);

type Drop = Report['rides'][number]['chainDrops'][number];

/** The bike of the sample report with these lost chains and this likeliest cause; its one adjustment lies between its rides. */
function bike(drops: readonly Partial<Drop>[], cause: Cause = 'no-fault') {
  const report = sampleReport();
  const made = drops.map((drop) => ({
    at: report.adjustments.at(-1)!.at,
    side: 'past-largest' as const,
    afterShiftTo: null,
    confidence: 0.9,
    ...drop,
  }));
  const quiet = quietReport(cause, false);
  return {
    ...quiet,
    adjustments: report.adjustments,
    rides: quiet.rides.map((ride, i) => (i === 0 ? { ...ride, chainDrops: made } : ride)),
    diagnosis: { ...quiet.diagnosis, stillThere: 1 },
  };
}

const dangers = (...given: Parameters<typeof bike>): readonly string[] => bikeState(bike(...given)).dangers;

describe('the dangers of a bike', () => {
  it('are none where nothing of the kind was seen', () => {
    expect(dangers([])).toEqual([]);
    expect(dangers([{ confidence: 0.5 }])).toEqual([]);
  });

  it('name a chain that may have come off elsewhere, and such a bike is watched', () => {
    const state = bikeState(bike([{ side: 'chainring', confidence: 0.63 }]));
    expect(state.dangers).toEqual([
      'The chain may have come off the chainring, or nobody knows where, once: look over chain, chainring and chain guide before riding, and log that look at the chain.',
    ]);
    expect(bikeState(bike([])).word).toBe('fine');
    expect(state.word).toBe('watch');
  });

  it('go with how often the chain was surely lost, wherever it went', () => {
    const lost = (...drops: Partial<Drop>[]): number => bikeState(bike(drops)).chainsLost;
    expect(lost()).toBe(0);
    expect(lost({}, { side: 'chainring' }, { confidence: 0.6 })).toBe(2);
  });

  it('let a chain that came off elsewhere pass once the chain was looked over, and none that left the cassette', () => {
    const { at } = sampleReport().adjustments.at(-1)!;
    const later = (ms: number): string => new Date(Date.parse(at) + ms).toISOString();
    const state = (side: Drop['side'], lookedAt: string, parameter = 'chain', more: readonly Partial<Drop>[] = []) => {
      const made = bike([{ side, confidence: 0.9 }, ...more]);
      return bikeState({ ...made, looks: [{ at: lookedAt, parameter, unit: 'done' }] } as Report);
    };
    expect(state('chainring', later(60_000))).toMatchObject({ word: 'fine', dangers: [] });
    expect(state('chainring', later(-60_000)).word).toBe('watch');
    expect(state('chainring', later(60_000), 'pulley-gap').word).toBe('watch');
    expect(state('past-largest', later(60_000)).word).toBe('service');
    const again = { side: 'unknown', at: later(120_000) } as const;
    expect(state('chainring', later(60_000), 'chain', [again]).dangers[0]).toMatch(
      /^The chain came off .* once since the chain was looked over: look over/,
    );
  });

  it('name a chain that left the cassette, the less sure times apart and those before the last adjustment not', () => {
    const before = { at: '2000-01-01T00:00:00.000Z' };
    expect(dangers([{}, { confidence: 0.6 }])).toEqual([
      'The chain left the cassette once (and perhaps once more): inspect before riding.',
    ]);
    expect(dangers([{}, before])[0]).toContain('once since the last adjustment:');
    expect(dangers([{ at: '2000-01-01T00:00:00.000Z', side: 'chainring' }])).toEqual([]);
    expect(bikeState(bike([{}])).word).toBe('service');
  });

  it('keep a chain that left the cassette before the last adjustment as long as the diagnosis keeps riders off that cog', () => {
    const proven = bike([{ at: '2000-01-01T00:00:00.000Z' }]);
    const report = {
      ...proven,
      diagnosis: { ...proven.diagnosis, now: { ...proven.diagnosis.now, keepOff: ['past-largest'] } },
    } as Report;
    const startMs = Date.parse(report.adjustments.at(-1)!.at) + 1000;
    const toCog = report.bike.cassette.length - 1;
    const clean = { toCog, outcome: 'clean', weak: false, direction: 'to-larger' };
    const ridden = (count: number, shift: object = clean, ms = startMs): readonly string[] => {
      const shifts = Array.from({ length: count }, (_, i) => ({ ...shift, timeS: i }));
      return stateOf(report, [{ startMs: ms, events: { shifts, ghostShifts: [] } }] as never).dangers;
    };
    expect(ridden(0)).toEqual([
      'The chain left the cassette past the 37 before the last adjustment (once), and no shift onto it since shows that it stays on: inspect before riding, and keep off the 37 until its limit and the hanger were looked at on a stand.',
    ]);
    expect(ridden(9)[0]).toContain('only 9 clean shifts onto it since show that');
    expect(ridden(1)[0]).toContain('only 1 clean shift onto it since shows that');
    for (const other of [{ toCog: 0 }, { outcome: 'late' }, { weak: true }])
      expect(ridden(10, { ...clean, ...other })[0]).toContain('no shift onto it since');
    expect(ridden(10, clean, startMs - 3600_000)[0]).toContain('no shift onto it since');
    // of a limit that was opened again those shifts are of another setting
    const [made] = report.adjustments.slice(-1);
    const turn = (at: number, amount: number) => ({
      ...{ ...made, parameter: 'low-limit' as const, unit: 'turns' as const, amount, at: new Date(at).toISOString() },
    });
    const back = { ...report, adjustments: [turn(startMs - 500, 0.25), turn(startMs + 60_000, -0.25)] };
    expect(
      stateOf(back, [{ startMs, events: { shifts: [{ ...clean, timeS: 1 }], ghostShifts: [] } }] as never).dangers[0],
    ).toContain('no shift onto it since');
    expect(bikeState(proven).dangers).toEqual([]);
    expect([bikeState(report).word, bikeState(proven).word]).toEqual(['service', bikeState(bike([])).word]);
  });

  it('send no bike to service any more once limit and hanger were seen to: it is watched until shifts show that the chain stays on', () => {
    const seenTo = (drops: readonly Partial<Drop>[], keepOff: readonly string[], lookedOver = ['past-largest']) => {
      const made = bike(drops);
      return bikeState({
        ...made,
        diagnosis: { ...made.diagnosis, now: { ...made.diagnosis.now, keepOff, lookedOver } },
      } as Report);
    };
    const before = { at: '2000-01-01T00:00:00.000Z' };
    for (const drop of [{}, before]) {
      expect(seenTo([drop], ['past-largest']).word).toBe('watch');
      expect(seenTo([drop], ['past-largest'], ['past-smallest']).word).toBe('service');
    }
    expect(seenTo([before], ['past-largest']).dangers[0]).toMatch(/keep off the 37 until the chain stays on there/);
    expect(seenTo([{}], []).word).toBe(bikeState(bike([])).word);
    expect(seenTo([{}], []).dangers).toEqual([]);
  });

  it('count a chain that left the cassette on a ride without a date, which may lie after any adjustment', () => {
    const undated = (drops: readonly Partial<Drop>[] = []) => {
      const { rides, ...rest } = bike(drops);
      const lost = {
        at: '1970-01-01T00:10:00.000Z',
        side: 'past-largest',
        afterShiftTo: null,
        confidence: 0.9,
      } as const;
      return { ...rest, rides: [{ ...rides[1], start: '1970-01-01T00:00:00.000Z', chainDrops: [lost] }, rides[0]] };
    };
    expect(bikeState(undated())).toMatchObject({
      word: 'service',
      dangers: ['The chain left the cassette once: inspect before riding.'],
    });
    expect(bikeState(undated([{ at: '2000-01-01T00:00:00.000Z' }])).dangers).toEqual([
      'The chain left the cassette once since the last adjustment or on a ride without a date: inspect before riding.',
    ]);
  });

  it("leave out a ride that looks like another bike's", () => {
    const { rides, ...rest } = bike([{}]);
    const leftOut = { ...rides[0], leftOut: 'another-bike' as const };
    expect(bikeState({ ...rest, rides: [leftOut, ...rides.slice(1)] }).dangers).toEqual([]);
  });

  it('name a chain that came off elsewhere, which alone sends no bike to service', () => {
    const state = bikeState(bike([{ side: 'chainring' }, { side: 'unknown' }]));
    expect(state.dangers).toEqual([expect.stringMatching(/^The chain came off the chainring, .* twice: look over/)]);
    expect(state.reasons[0]).toBe(state.dangers[0]);
    expect(state.word).toBe('watch');
  });

  it('name a limit that probably lets the chain past its cog', () => {
    expect(dangers([], 'low-limit-loose')).toEqual([
      'Low limit screw too far out (98 %): the chain can go into the spokes. Keep off the largest cog until the screw is set and was tried on a stand.',
    ]);
    expect(dangers([], 'high-limit-loose')[0]).toContain('Keep off the smallest cog');
  });

  it('name a hanger that is probably bent', () => {
    expect(dangers([], 'hanger-bent')).toEqual([
      expect.stringMatching(/^Derailleur hanger bent \(98 %\): the derailleur can reach the spokes/),
    ]);
    expect(dangers([], 'cable-friction')).toEqual([]);
  });
});
