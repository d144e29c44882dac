import { describe, expect, it } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import { buildEvidence } from '../../../src/diagnosis/evidence/build-evidence.ts';
import { cogFarAbove } from '../../../src/diagnosis/unexplained/cog-far-above.ts';
import { cableBike, cassette, patternRide } from '../pattern-ride.ts';

const last = cassette.length - 1;
const input = (rides: ReturnType<typeof patternRide>[]) => ({ bike: cableBike, rides, adjustments: [] });

/** Rides in which some of the shifts onto the largest cog come late, as sure as told, all others in order. */
function ridden(lateOnto51: number, sure = 0.9, others = 0) {
  const { events, ...ride } = patternRide({ pattern: () => ({}), shifts: 40 });
  const probability = { clean: 1 - sure, late: sure, missed: 0, overshot: 0 };
  const late = { outcome: 'late', crankRevs: 2.4, confidence: sure, probability } as const;
  let [met, met51] = [0, 0];
  const shifts = events.shifts.map((shift) => {
    if (shift.toCog === last) return met51++ < lateOnto51 ? { ...shift, ...late } : shift;
    return others > 0 && met++ % others === 0 ? { ...shift, ...late } : shift;
  });
  return input([{ ...ride, events: { ...events, shifts } }]);
}

describe('one cog that fails far more than all others', () => {
  it('is found, as far as its trouble is sure', () => {
    const onto51 = { cog: last, direction: 'to-larger' };
    expect(cogFarAbove(buildEvidence(ridden(7)), cassette.length)).toEqual(onto51);
    expect(cogFarAbove(buildEvidence(ridden(3)), cassette.length)).toBeNull();
    expect(cogFarAbove(buildEvidence(ridden(7, 0.3)), cassette.length)).toBeNull();
    // others fail as often
    expect(cogFarAbove(buildEvidence(ridden(7, 0.9, 6)), cassette.length)).toBeNull();
  });

  it('is found where shifts onto it are each only likely late, and not where all are a little doubtful', () => {
    const onto51 = { cog: last, direction: 'to-larger' };
    const expected = { clean: 0.97, late: 0.02, missed: 0.01, overshot: 0 };
    const likely = ridden(7, 0.52).rides.map(({ events, ...ride }) => ({
      ...ride,
      events: { ...events, shifts: events.shifts.map((shift) => ({ ...shift, expected })) },
    }));
    expect(cogFarAbove(buildEvidence(input(likely)), cassette.length)).toEqual(onto51);
    const doubtful = { clean: 0.85, late: 0.15, missed: 0, overshot: 0 };
    const [{ events, ...ride }] = ridden(0).rides;
    const shifts = events.shifts.map((shift) => (shift.toCog === last ? { ...shift, probability: doubtful } : shift));
    expect(cogFarAbove(buildEvidence(input([{ ...ride, events: { ...events, shifts } }])), cassette.length)).toBeNull();
  });

  it('leaves no bike in order, and is looked at before anything is turned', () => {
    const { causes, failsOnto, suggestion } = diagnose(ridden(7));
    expect(failsOnto).toBe(51);
    expect(causes[0].cause).not.toBe('no-fault');
    expect(causes.find(({ cause }) => cause === 'no-fault')?.probability).toBeLessThan(0.011);
    expect(suggestion.namesCause).toBe(false);
    expect(suggestion.action).toMatch(
      /^Turn nothing yet: shifts onto the 51 plainly fail more often than all others, but it is not decided which fault it is/,
    );
    expect(suggestion.looksFirst).toBe('hanger');
    expect(suggestion.start).toMatch(/straight below the largest cog/);
  });
});
