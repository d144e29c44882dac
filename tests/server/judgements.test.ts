import { describe, expect, it } from 'vitest';
import { eventKey } from '../../server/judgements/event-key.ts';
import { judgeEvents } from '../../server/judgements/judge-events.ts';
import { judgeRideReport } from '../../server/judgements/judge-ride-report.ts';
import { matchJudgements } from '../../server/judgements/match-judgements.ts';
import { withVerdicts } from '../../server/routes/ride-answer.ts';
import { putJudgement } from '../../server/store/judgement-store.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { momentIso } from '../../src/report/moment-iso.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type { RideEvents, ShiftEvent } from '../../src/shifts/ride-events.ts';
import { fitBytes } from '../../src/simulate/files/fit-bytes.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides } from './made-rides.ts';

const { server, api } = await checkedServer();

const startMs = Date.UTC(2026, 5, 1);
const shift = (timeS: number, outcome: ShiftEvent['outcome']): ShiftEvent => ({
  timeS,
  lastTimeS: timeS,
  fromCog: 3,
  toCog: 4,
  cogsToCross: 1,
  direction: 'to-larger',
  outcome,
  crankRevs: outcome === 'late' ? 3 : 1,
  confidence: 0.7,
  probability: { clean: 0.1, late: 0.7, missed: 0.1, overshot: 0.1 },
  expected: openExpectation,
  torqueNm: 20,
  cadenceRpm: 80,
  unjudgedBecause: null,
  weak: false,
});
const events: RideEvents = {
  shifts: [shift(10, 'clean'), shift(20, 'late'), shift(30, 'missed'), shift(40, 'overshot'), shift(50, 'unjudged')],
  ghostShifts: [{ timeS: 60, fromCog: 3, toCog: 2, heldS: 5, confidence: 0.6, torqueNm: 20 }],
  chainDrops: [{ timeS: 70, side: 'unknown', afterShiftTo: null, confidence: 0.6 }],
  skips: [{ timeS: 80, cog: 3, confidence: 0.6, torqueNm: 20 }],
  pedallingSByCog: new Float64Array(12),
};
const key = (kind: 'shift' | 'ghost' | 'drop' | 'skip', timeS: number) => eventKey(kind, momentIso(startMs, timeS));
const judgedBy = (entries: Record<string, 'confirmed' | 'rejected'>) =>
  new Map(Object.entries(entries).map(([name, verdict]) => [name, { verdict }]));

describe('a judgement of an event', () => {
  it('makes a rejected fault clean, and a rejected clean shift unjudged', () => {
    const rejected = judgedBy({
      [key('shift', 10)]: 'rejected',
      [key('shift', 20)]: 'rejected',
      [key('shift', 30)]: 'rejected',
      [key('shift', 40)]: 'rejected',
    });
    const { shifts } = judgeEvents(events, startMs, rejected);
    expect(shifts.map(({ outcome }) => outcome)).toEqual(['unjudged', 'clean', 'clean', 'clean', 'unjudged']);
    expect(shifts[1]).toMatchObject({ confidence: 1, crankRevs: null, probability: { clean: 1, late: 0 } });
    expect(shifts[0].probability).toEqual({ clean: 0, late: 0, missed: 0, overshot: 0 });
    expect(shifts.map(({ unjudgedBecause }) => unjudgedBecause)).toEqual(['rejected', null, null, null, null]);
  });

  it('takes the halt of a rejected lost chain out of those that may be of one, and leaves the others', () => {
    const ontoEnd = [
      { timeS: 20, end: 'largest', haltLogOdds: null },
      { timeS: 68, end: 'largest', haltLogOdds: 0.5 },
      { timeS: 300, end: 'largest', haltLogOdds: 0.5 },
    ] as const;
    const none = { shifts: 0, halts: 0 };
    const halting: RideEvents = {
      ...events,
      promptHalts: { ontoEnd, elsewhere: { largest: none, smallest: none } },
    };
    const timesAfter = (timeS: number): number[] | undefined =>
      judgeEvents(halting, startMs, judgedBy({ [key('drop', timeS)]: 'rejected' })).promptHalts?.ontoEnd.map(
        (one) => one.timeS,
      );
    expect(timesAfter(70)).toEqual([20, 300]);
    expect(timesAfter(71)).toEqual([20, 68, 300]);
  });

  it('leaves open in the report when a rejected shift was done, as it does the turns that it took', () => {
    const told = (timeS: number, outcome: ShiftEvent['outcome']) => ({
      at: momentIso(startMs, timeS),
      outcome,
      crankRevs: 1,
      turns: { cleanUntilS: 1.2, lateUntilS: 4, doneS: 2.1 },
    });
    const shifts = [told(10, 'clean'), told(20, 'late'), told(30, 'late'), told(40, 'clean')];
    const report = { shifts, ghostShifts: [], chainDrops: [], skips: [] } as unknown as RideReport;
    const judged = judgedBy({
      [key('shift', 10)]: 'rejected',
      [key('shift', 20)]: 'rejected',
      [key('shift', 30)]: 'confirmed',
    });
    expect(judgeRideReport(report, judged).shifts.map(({ outcome, turns }) => [outcome, turns.doneS])).toEqual([
      ['unjudged', null],
      ['clean', null],
      ['late', 2.1],
      ['clean', 2.1],
    ]);
    expect(judgeRideReport(report, judged).shifts[1].turns).toMatchObject({ cleanUntilS: 1.2, lateUntilS: 4 });
  });

  it.each(['confirmed', 'rejected'] as const)('leaves a shift that was not judged as it is when %s', (verdict) => {
    const unjudged = { ...shift(50, 'unjudged'), unjudgedBecause: 'no-pedalling', confidence: 1 } as const;
    const silent = { ...unjudged, unjudgedBecause: 'no-cadence', weak: true } as const;
    for (const one of [unjudged, silent]) {
      const { shifts } = judgeEvents({ ...events, shifts: [one] }, startMs, judgedBy({ [key('shift', 50)]: verdict }));
      expect(shifts).toEqual([one]);
    }
  });

  it.each(['clean', 'late', 'unjudged'] as const)('on a %s shift leaves the verdict a distribution', (outcome) => {
    const missed = { clean: 0.65, late: 0, missed: 0.35, overshot: 0 };
    const reaction = { unjudgedBecause: 'no-cadence', weak: true, probability: missed } as const;
    const one = { ...shift(10, outcome), ...(outcome === 'unjudged' && reaction) };
    for (const verdict of ['confirmed', 'rejected'] as const) {
      const judged = judgeEvents({ ...events, shifts: [one] }, startMs, judgedBy({ [key('shift', 10)]: verdict }));
      const ride = { startMs, durationS: 100, evidence: 'full', events: judged } as const;
      const { causes, lateralOffsetMm } = diagnose({ bike: hutBike, rides: [ride], adjustments: [] });
      expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      expect(lateralOffsetMm.mean).toSatisfy(Number.isFinite);
    }
  });

  it('takes rejected ghosts, drops and skips out', () => {
    const rejected = judgedBy({
      [key('ghost', 60)]: 'rejected',
      [key('drop', 70)]: 'rejected',
      [key('skip', 80)]: 'rejected',
    });
    expect(judgeEvents(events, startMs, rejected)).toMatchObject({ ghostShifts: [], chainDrops: [], skips: [] });
  });

  it('takes the chain going at last to its cog out where the missed shift before is rejected', () => {
    const towards = { ...events.ghostShifts[0], timeS: 36, towardsCommand: true };
    const both = { ...events, ghostShifts: [towards, ...events.ghostShifts] };
    const left = (timeS: number) =>
      judgeEvents(both, startMs, judgedBy({ [key('shift', timeS)]: 'rejected' })).ghostShifts;
    expect(left(30)).toEqual(events.ghostShifts);
    expect(left(20)).toEqual(both.ghostShifts);
    expect(left(50)).toEqual(both.ghostShifts);
  });

  it('keeps the chain’s going at last to its cog where the rider confirmed it', () => {
    const towards = { ...events.ghostShifts[0], timeS: 36, towardsCommand: true };
    const judged = judgedBy({ [key('shift', 30)]: 'rejected', [key('ghost', 36)]: 'confirmed' });
    const { ghostShifts, shifts } = judgeEvents({ ...events, ghostShifts: [towards] }, startMs, judged);
    expect(ghostShifts).toEqual([{ ...towards, confidence: 1 }]);
    expect(shifts[2].outcome).toBe('clean');
  });

  it('lists the chain’s going at last to its cog as rejected where it fell with the missed shift', () => {
    const at = (timeS: number) => ({ at: momentIso(startMs, timeS), confidence: 0.6 });
    const missed = { ...at(30), outcome: 'missed', crankRevs: null, turns: { doneS: null } };
    const report = {
      ...{ shifts: [missed], chainDrops: [], skips: [] },
      ghostShifts: [{ ...at(36), towardsCommand: true }, at(60)],
    } as unknown as RideReport;
    const said = [{ eventKey: key('shift', 30), verdict: 'rejected', note: '' }] as const;
    const { ghostShifts, rejected, counts } = withVerdicts(report, [...said]);
    expect(ghostShifts.map(({ eventKey: name }) => name)).toEqual([key('ghost', 60)]);
    expect(rejected.ghostShifts).toMatchObject([{ eventKey: key('ghost', 36), verdict: null, found: null }]);
    expect(counts.ghostShifts).toBe(1);
    const kept = [...said, { eventKey: key('ghost', 36), verdict: 'confirmed', note: '' } as const];
    expect(withVerdicts(report, kept).rejected.ghostShifts).toEqual([]);
  });

  it('makes what is confirmed certain', () => {
    const confirmed = judgedBy({ [key('shift', 20)]: 'confirmed', [key('ghost', 60)]: 'confirmed' });
    const judged = judgeEvents(events, startMs, confirmed);
    expect(judged.shifts[1]).toMatchObject({ outcome: 'late', crankRevs: 3, confidence: 1, probability: { late: 1 } });
    expect(judged.ghostShifts[0].confidence).toBe(1);
    expect(judged.chainDrops[0].confidence).toBe(0.6);
  });

  it('leaves the rest as it is', () => {
    expect(judgeEvents(events, startMs, new Map())).toBe(events);
    const report = { shifts: [] } as unknown as RideReport;
    expect(judgeRideReport(report, new Map())).toBe(report);
  });

  it('follows an event that a new analysis dates a little otherwise, and no other', () => {
    const said = { eventKey: 'shift-100000', verdict: 'rejected', note: '' } as const;
    const near = (...keys: string[]): string[] => [...matchJudgements(keys, [said]).keys()];
    expect(near('shift-100000', 'shift-100500')).toEqual(['shift-100000']);
    expect(near('shift-99200', 'shift-101500')).toEqual(['shift-99200']);
    expect(near('shift-103000')).toEqual([]);
    expect(near('ghost-100000')).toEqual([]);
  });

  it('gives no event two judgements: what is said of it itself goes before, else what came first', () => {
    const confirmed = { eventKey: 'shift-100000', verdict: 'confirmed', note: '' } as const;
    const [early, late] = ([99_500, 100_500] as const).map(
      (ms) => ({ eventKey: `shift-${ms}`, verdict: 'rejected', note: String(ms) }) as const,
    );
    const keys = ['shift-100000'];
    expect([...matchJudgements(keys, [early, confirmed])]).toEqual([['shift-100000', confirmed]]);
    expect([...matchJudgements(keys, [early, late])]).toEqual([['shift-100000', early]]);
  });
});

/** A made ride in which the chain moves by itself. */
const GHOST_SEED = 3;

/** What the lists of a report hold, as its counts would say. */
const listed = ({ shifts, ghostShifts, chainDrops, skips }: Loose) => [
  ...['clean', 'late', 'missed', 'overshot', 'unjudged'].map(
    (outcome) => shifts.filter((one: Loose) => one.outcome === outcome).length,
  ),
  ghostShifts.length,
  chainDrops.length,
  skips.length,
];
const counted = ({ clean, late, missed, overshot, unjudged, ghostShifts, chainDrops, skips }: Loose) => [
  ...[clean, late, missed, overshot, unjudged],
  ...[ghostShifts, chainDrops, skips],
];

describe('a judgement through the API', () => {
  it('moves the counts at once, tallies and trend after it, and can be taken back', async () => {
    const bikeId = await api.addHutBike();
    const { body: sent } = await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1));
    await api.settled();
    const ride = `/api/rides/${sent.files[0].rideId}`;
    const before = (await api.get(ride)).body;
    const trouble = before.report.shifts.find(({ outcome }: Loose) => outcome === 'late' || outcome === 'missed');
    expect(trouble, 'the ride has a shift to judge').toBeDefined();
    const judging = `${ride}/judgements/${trouble.eventKey}`;
    const judged = await api.put(judging, { verdict: 'rejected', note: 'I missed the button' });
    expect(judged.status).toBe(202);
    const after = (await api.get(ride)).body;
    expect(after.counts).toEqual({
      ...before.counts,
      clean: before.counts.clean + 1,
      [trouble.outcome]: before.counts[trouble.outcome] - 1,
    });
    expect(after.report.counts).toEqual(after.counts);
    expect(listed(after.report)).toEqual(counted(after.counts));
    expect(after.report.shifts.find(({ eventKey }: Loose) => eventKey === trouble.eventKey)).toMatchObject({
      outcome: 'clean',
      crankRevs: null,
      verdict: 'rejected',
      found: { outcome: trouble.outcome, crankRevs: trouble.crankRevs, confidence: trouble.confidence },
    });
    expect(after.judgements).toEqual([
      { eventKey: trouble.eventKey, verdict: 'rejected', note: 'I missed the button' },
    ]);
    await api.settled();
    expect((await api.get(`/api/jobs/${judged.body.jobId}`)).body.status).toBe('done');
    const cogs = (cassette: Loose[]): number => cassette.reduce((sum, cog) => sum + cog.late + cog.missed, 0);
    const report = (await api.get(`/api/bikes/${bikeId}`)).body.report;
    const whole = (await api.get(`/api/bikes/${bikeId}?events=true`)).body.report;
    expect(report.rides[0].counts).toEqual(after.counts);
    expect(cogs(report.cogs)).toBe(before.counts.late + before.counts.missed - 1);
    const plain = ({ eventKey: _, verdict: _verdict, found: _found, ...shift }: Loose) => shift;
    expect(whole.rides[0].shifts).toEqual(after.report.shifts.map(plain));
    expect((await api.delete(judging)).status).toBe(202);
    expect((await api.delete(judging)).status).toBe(404);
    expect((await api.get(ride)).body.counts).toEqual(before.counts);
    expect((await api.put(`${ride}/judgements/shift-1`, { verdict: 'rejected' })).status).toBe(404);
    await api.settled();
  });

  it('puts an unasked shift that did not happen apart, from where it can be taken back', async () => {
    const bikeId = await api.addHutBike();
    const { body: sent } = await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1, { seed: GHOST_SEED }));
    await api.settled();
    const ride = `/api/rides/${sent.files[0].rideId}`;
    const { report: before } = (await api.get(ride)).body;
    const [ghost] = before.ghostShifts;
    expect(ghost, 'the ride has an unasked shift').toMatchObject({ verdict: null, found: null });
    await api.put(`${ride}/judgements/${ghost.eventKey}`, { verdict: 'confirmed' });
    expect((await api.get(ride)).body.report.ghostShifts[0]).toEqual({
      ...ghost,
      confidence: 1,
      verdict: 'confirmed',
      found: { confidence: ghost.confidence },
    });
    await api.put(`${ride}/judgements/${ghost.eventKey}`, { verdict: 'rejected' });
    const { report, counts } = (await api.get(ride)).body;
    expect(listed(report)).toEqual(counted(counts));
    expect(counts.ghostShifts).toBe(before.counts.ghostShifts - 1);
    const { confidence } = ghost;
    expect(report.rejected).toEqual({
      ghostShifts: [{ ...ghost, verdict: 'rejected', found: { confidence } }],
      chainDrops: [],
      skips: [],
    });
    await api.delete(`${ride}/judgements/${ghost.eventKey}`);
    expect((await api.get(ride)).body.report).toEqual(before);
    await api.settled();
  });

  it('is refused of a shift that was not judged, and one that was kept before changes nothing', async () => {
    const [{ log, name }] = madeRides(1);
    const cadenceRpm = log.cadenceRpm.map(() => Number.NaN);
    const bikeId = await api.addHutBike();
    const silent = { name: `silent-${name}`, bytes: fitBytes({ ...log, cadenceRpm }) };
    const { body: sent } = await api.send(`/api/uploads?bike=${bikeId}`, [silent]);
    await api.settled();
    const { rideId } = sent.files[0];
    const verdict = async () => (await api.get(`/api/bikes/${bikeId}`)).body.report.diagnosis;
    const before = await verdict();
    const { report } = (await api.get(`/api/rides/${rideId}`)).body;
    const [{ eventKey: said, outcome }] = report.shifts;
    expect(outcome).toBe('unjudged');
    const refused = await api.put(`/api/rides/${rideId}/judgements/${said}`, { verdict: 'confirmed' });
    expect(refused).toMatchObject({ status: 409, body: { error: { code: 'not-judged' } } });
    putJudgement(server.services.sql, rideId, { eventKey: said, verdict: 'confirmed', note: '' });
    // any change of the bike has its report worked out again
    await api.put(`/api/bikes/${bikeId}`, { ...hutBike, name: 'Another name' });
    await api.settled();
    expect(await verdict()).toEqual(before);
    expect((await api.delete(`/api/rides/${rideId}/judgements/${said}`)).status).toBe(202);
    await api.settled();
  });
});
