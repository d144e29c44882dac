import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/analyse.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { keepingOneIn } from './keeping-one-in.ts';

const rides = [5, 6].map(
  (seed) =>
    simulateRides({
      cause: 'cable-tension-low',
      severity: 'severe',
      seed,
      durationS: 2400,
      speedSource: 'wheel',
      formats: [],
    })[0],
);

/** What is found of the rides, and what became of the shifts that truly were late or missed. */
function found(every: number) {
  const ofTroubled = { clean: 0, trouble: 0, unjudged: 0 };
  let judged = 0;
  const reports = rides.map(({ log, truth }) => {
    const report = analyse([keepingOneIn(every, log)], {
      bike: { name: 'bike', actuation: 'cable', ...truth.bike },
      adjustments: [],
    });
    const [ride] = report.rides;
    judged += ride.counts.shifts - ride.counts.unjudged;
    for (const { recordedAtS, outcome } of truth.shifts) {
      if (outcome !== 'late' && outcome !== 'missed') continue;
      const shift = ride.shifts.find(({ at }) => Math.abs((Date.parse(at) - log.startMs) / 1000 - recordedAtS) < 0.6);
      if (shift) ofTroubled[shift.outcome === 'clean' || shift.outcome === 'unjudged' ? shift.outcome : 'trouble']++;
    }
    return report;
  });
  const codes = reports.flatMap((report) => report.rides[0].warnings.map(({ code }) => code));
  return { ofTroubled, judged, codes, notes: reports.map(({ diagnosis }) => diagnosis.notes.join(' ')) };
}

describe('a ride of a bike with trouble', () => {
  it('shows it in records of one second', () => {
    const { ofTroubled, codes, notes } = found(1);
    expect(ofTroubled.trouble).toBeGreaterThan(20);
    expect(codes).not.toContain('sparse-records');
    expect(notes.join()).not.toMatch(/far apart/);
  });

  it('is not called clean where the records lie too far apart to show it', () => {
    const { ofTroubled, judged, codes, notes } = found(5);
    expect(ofTroubled.unjudged).toBeGreaterThan(5 * ofTroubled.clean);
    expect(judged).toBeGreaterThan(10);
    expect(codes.filter((code) => code === 'sparse-records')).toHaveLength(rides.length);
    for (const note of notes) expect(note).toMatch(/^In every ride with gear records .* a fault may be there/);
  });
});
