import { describe, expect, it } from 'vitest';
import { rideStrip } from '../../src/report/chart-data/ride-strip.ts';
import { rideNotes } from '../../src/report/words/ride-notes.ts';
import { chancesInWords, isUnclear, mayWellBeClean, unclearShifts } from '../../src/report/words/unclear-outcome.ts';
import { sampleBike, sampleReport } from './sample-report.ts';

const chances = { clean: 0.4, late: 0.34, missed: 0.26, overshot: 0 };
const shift = { outcome: 'late', confidence: 0.34, outcomeChances: chances } as const;

describe('a shift of which nobody can be sure', () => {
  it('is one in trouble that is less than half sure, and never a clean or an unjudged one', () => {
    expect(isUnclear(shift)).toBe(true);
    expect(isUnclear({ ...shift, confidence: 0.5 })).toBe(false);
    expect(isUnclear({ ...shift, outcome: 'unjudged' })).toBe(false);
    expect(unclearShifts({ shifts: [shift, { ...shift, confidence: 0.9 }, shift] })).toBe(2);
  });

  it('may well be clean where no one way of going wrong is likelier than that', () => {
    expect(mayWellBeClean(shift)).toBe(true);
    expect(mayWellBeClean({ ...shift, outcomeChances: { ...chances, clean: 0.3, missed: 0.36 } })).toBe(false);
    expect(mayWellBeClean({ ...shift, confidence: 0.9 })).toBe(false);
    expect(mayWellBeClean({ outcome: 'late', confidence: 0.34 })).toBe(false);
  });

  it('is told with every way it may have gone, what it counts as first', () => {
    expect(chancesInWords(shift)).toBe('34 % late, 40 % clean, 26 % missed');
    expect(chancesInWords({ outcome: 'late', confidence: 0.34 })).toBeNull();
  });

  it('is said to be unclear in the notes of its ride and where the ride is drawn, and counted as before', () => {
    const [ride] = sampleReport().rides;
    const late = ride.shifts.findIndex(({ outcome }) => outcome === 'late');
    const shifts = ride.shifts.map((one, i) => (i === late ? { ...one, ...shift } : one));
    const { late: lates, missed, overshot } = ride.counts;
    expect(rideNotes({ ...ride, shifts }, 'text').join(' ')).toContain(
      `1 of the ${lates + missed + overshot} late, missed or overshot shifts is unclear`,
    );
    expect(rideNotes(ride, 'text').join(' ')).not.toContain('unclear');
    const words = rideStrip({ ...ride, shifts }, sampleBike.cassette).events.map((event) => event.words);
    expect(words.filter((text) => text.includes('unclear'))).toEqual([
      expect.stringContaining('unclear, counted as late (34 % late, 40 % clean, 26 % missed)'),
    ]);
  });
});

describe('the report of a shift', () => {
  it('holds how likely each way is, and none for one that was not judged', () => {
    const { shifts } = sampleReport().rides[0];
    const judged = shifts.find(({ outcome }) => outcome !== 'unjudged');
    expect(judged?.outcomeChances).toEqual({ clean: 1, late: 0, missed: 0, overshot: 0 });
    expect(shifts.find(({ outcome }) => outcome === 'unjudged')?.outcomeChances).toBeNull();
  });
});
