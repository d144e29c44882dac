import { expect, it } from 'vitest';
import { nothingToJudge } from '../../src/report/nothing-to-judge.ts';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { quietReport } from './state/quiet-report.ts';

const report = quietReport('no-fault', false);
const ride = (code: string) => ({
  ...report.rides[0],
  ...{ gearSource: 'recorded' as const, evidence: 'commands-only' as const, warnings: [{ code, message: '' }] },
});

it('rides that are too short to show the chain are told to be longer, not to hold what they hold', () => {
  const short = ride('too-little-pedalling');
  expect(nothingToJudge([short])).toBe('too-short');
  expect(nothingToJudge([short, ride('few-sound-readings')])).toBe('no-chain-seen');
  expect(nothingToJudge([short, ride('no-cadence')])).toBe('no-chain-seen');

  const weighed = { ...report.diagnosis.weighed, judgedShifts: 0, events: 0 };
  const cogs = report.cogs.map((cog) => ({ ...cog, shifts: 0 }));
  const seen = { ...report, rides: [short], cogs, diagnosis: { ...report.diagnosis, weighed } };
  const state = bikeState(seen, []);
  expect(state.reasons).toEqual([
    'Its rides are too short to show where the chain was, so no shift can be judged: pedal for longer with the recorder on.',
  ]);
  expect(verdictHeadline({ bike: seen.bike, state, report: seen, pending: 0 } as never)).toBe(
    'Too little pedalling to show where the chain was',
  );
});
