import { expect, it } from 'vitest';
import type { BikeDetail, RideDetail } from '../../web/api/answers.ts';
import { sameAnalysis } from '../../web/ride/same-analysis.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

type Drawn = { ride: RideDetail & { report: NonNullable<RideDetail['report']> }; bike: BikeDetail };

const [{ detail, rides }] = madeUpFleet();
const fresh = (): Drawn => structuredClone({ ride: rides[2].detail, bike: detail }) as Drawn;
const after = (change: (drawn: Drawn) => void): Drawn => {
  const drawn = fresh();
  change(drawn);
  return drawn;
};

it('takes what the rider said of events for no new analysis', () => {
  const rejected = after(({ ride: { report } }) => {
    report.counts.missed -= 1;
    const missed = report.shifts.find(({ outcome }) => outcome === 'missed')!;
    const { outcome, confidence, unjudgedBecause, crankRevs } = missed;
    const found = { outcome, confidence, unjudgedBecause, crankRevs };
    Object.assign(missed, { outcome: 'clean', confidence: 1, verdict: 'rejected', found });
    const ghost = report.ghostShifts.pop()!;
    report.rejected.ghostShifts.push({ ...ghost, verdict: 'rejected', found: { confidence: ghost.confidence } });
  });
  expect(sameAnalysis(fresh(), rejected)).toBe(true);
});

it('takes a chain that went to its cog at last, of which the missed shift was rejected, for no new analysis', () => {
  const fallen = after(({ ride: { report } }) => {
    report.rejected.ghostShifts.push({ ...report.ghostShifts.pop()!, verdict: null, found: null });
  });
  expect(sameAnalysis(fresh(), fallen)).toBe(true);
});

it.each<[string, (drawn: Drawn) => void]>([
  ['another outcome', ({ ride }) => Object.assign(ride.report.shifts[0], { outcome: 'overshot' })],
  ['an event less', ({ ride }) => ride.report.ghostShifts.pop()],
  ['another rollout', ({ ride }) => Object.assign(ride.report, { rolloutMm: 2111 })],
  ['another remark', ({ ride }) => ride.report.warnings.push({ code: 'x', message: 'X.' })],
  ['another cassette', ({ bike }) => bike.bike.cassette.splice(-1, 1, 50)],
  ['another bike', ({ ride }) => Object.assign(ride, { bikeId: 'b2' })],
  ['no report', ({ ride }) => Object.assign(ride, { report: null })],
])('tells a new analysis by %s', (_, change) => {
  expect(sameAnalysis(fresh(), after(change))).toBe(false);
});
