import { describe, expect, it } from 'vitest';
import { eventKey, eventKeys } from '../../server/judgements/event-key.ts';
import { judgeRideReport, toldLists } from '../../server/judgements/judge-ride-report.ts';
import { matchJudgements } from '../../server/judgements/match-judgements.ts';
import { refuseTold } from '../../server/routes/refuse-told.ts';
import type { Judgement } from '../../server/store/judgement-store.ts';
import { momentIso } from '../../src/report/moment-iso.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { withToldEvents } from '../../src/report/told-events.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides } from './made-rides.ts';

const { api } = await checkedServer();

const startMs = Date.UTC(2026, 5, 1);
const key = (kind: 'drop' | 'skip', timeS: number) => eventKey(kind, momentIso(startMs, timeS));

describe('what a rider tells of', () => {
  const at = (timeS: number): string => momentIso(startMs, timeS);
  const asked = (timeS: number, toTeeth: number) => ({ at: at(timeS), fromTeeth: 21, toTeeth, outcome: 'clean' });
  const report = {
    start: at(0),
    durationS: 600,
    shifts: [asked(10, 24), asked(96, 45), asked(99, 51), asked(101, 45), asked(102, 45)],
    ghostShifts: [],
    chainDrops: [{ at: at(300), side: 'unknown', afterShiftTo: null, confidence: 0.6 }],
    skips: [],
    gears: [
      { at: at(0), teeth: 21 },
      { at: at(104), teeth: null },
    ],
  } as unknown as RideReport;
  const told = (kind: 'drop' | 'skip', timeS: number, side?: Judgement['side']): Judgement => ({
    eventKey: key(kind, timeS),
    verdict: 'told',
    ...(side && { side }),
    note: '',
  });
  const judgedWith = (...said: Judgement[]): RideReport =>
    judgeRideReport(report, matchJudgements(eventKeys(report), said));

  it('stands among the events of the ride, in order of time, sure and marked, and is counted', () => {
    const { chainDrops, skips, counts } = judgedWith(told('drop', 103, 'past-largest'), told('skip', 110));
    expect(chainDrops).toEqual([
      { at: at(103), side: 'past-largest', afterShiftTo: 51, confidence: 1, toldByRider: true },
      report.chainDrops[0],
    ]);
    // the cog that the chain was last seen on
    expect(skips).toEqual([{ at: at(110), teeth: 21, confidence: 1, toldByRider: true }]);
    expect(counts).toMatchObject({ chainDrops: 2, skips: 1 });
  });

  it('is one with an event that a later analysis finds near it, on the side that the rider knows', () => {
    const { chainDrops, counts } = judgedWith(told('drop', 308, 'past-smallest'));
    expect(chainDrops).toEqual([{ ...report.chainDrops[0], side: 'past-smallest', confidence: 1, toldByRider: true }]);
    expect(counts.chainDrops).toBe(1);
    expect(judgedWith(told('drop', 311)).chainDrops).toHaveLength(2);
    const rejected = { eventKey: key('drop', 300), verdict: 'rejected', note: '' } as const;
    expect(judgedWith(rejected, told('drop', 308)).chainDrops.map((drop) => drop.at)).toEqual([at(308)]);
  });

  it('is weighed with its ride: the same lists with cogs for teeth', () => {
    const judged = matchJudgements(eventKeys(report), [told('drop', 103, 'past-largest'), told('skip', 110)]);
    const frame = { startMs, cassette: hutBike.cassette };
    const bare = { shifts: [], ghostShifts: [], chainDrops: [], skips: [], pedallingSByCog: new Float64Array() };
    const { chainDrops, skips } = withToldEvents(bare, toldLists(report, judged), frame);
    expect(chainDrops).toEqual([
      { timeS: 103, side: 'past-largest', afterShiftTo: 11, confidence: 1, toldByRider: true },
    ]);
    expect(skips).toMatchObject([{ timeS: 110, cog: hutBike.cassette.indexOf(21), confidence: 1, toldByRider: true }]);
  });

  it('is refused outside the ride, twice within some seconds, and on a cog that nobody knows', () => {
    const refusal = (eventKey: string, ...said: Judgement[]) => {
      try {
        refuseTold(eventKey, report, said);
        return null;
      } catch (error) {
        return (error as { code: string }).code;
      }
    };
    expect(refusal(key('drop', 103))).toBeNull();
    expect(refusal(key('drop', 600))).toBeNull();
    expect(refusal(key('drop', 601))).toBe('outside-ride');
    expect(refusal(key('drop', -1))).toBe('outside-ride');
    expect(refusal(key('drop', 291))).toBe('told-already');
    expect(refusal(key('drop', 289))).toBeNull();
    expect(refusal(key('skip', 300))).toBeNull();
    expect(refusal(key('skip', 302), told('skip', 300))).toBe('told-already');
    expect(refusal(key('skip', 304), told('skip', 300))).toBeNull();
    // told anew under its own key, and in the place of what was rejected
    expect(refusal(key('drop', 103), told('drop', 103))).toBeNull();
    expect(refusal(key('drop', 308), { eventKey: key('drop', 300), verdict: 'rejected', note: '' })).toBeNull();
    expect(refusal(key('drop', 300), { eventKey: key('drop', 300), verdict: 'rejected', note: '' })).toBeNull();
    expect(refusal(key('drop', 300), { eventKey: key('drop', 300), verdict: 'confirmed', note: '' })).toBe(
      'told-already',
    );
    // the page offers to take back what was answered, and asks about the rest
    expect(() => refuseTold(key('skip', 302), report, [told('skip', 300)])).toThrow('Take that one back');
    const confirmed = { eventKey: key('drop', 300), verdict: 'confirmed', note: '' } as const;
    expect(() => refuseTold(key('drop', 308), report, [confirmed])).toThrow('Take that one back');
    expect(() => refuseTold(key('drop', 300), report, [confirmed])).toThrow('Take that one back');
    expect(() => refuseTold(key('drop', 308), report, [])).toThrow('Say of that one whether it happened');
    expect(() => refuseTold(key('drop', 1), undefined, [])).toThrow('not worked through yet');
    expect(() => refuseTold(key('skip', 1), { ...report, shifts: [], gears: [] }, [])).toThrow('no cog at all');
  });
});

describe('telling through the API', () => {
  it('adds a lost chain that the log does not show, which the verdict counts, and takes it back', async () => {
    const bikeId = await api.addHutBike();
    const { body: sent } = await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1));
    await api.settled();
    const { rideId } = sent.files[0];
    const ride = `/api/rides/${rideId}`;
    const diagnosis = async () => (await api.get(`/api/bikes/${bikeId}`)).body.report.diagnosis;
    const before = (await api.get(ride)).body;
    const verdict = await diagnosis();
    const atMs = Date.parse(before.report.start) + Math.round(before.durationS / 2) * 1000;
    const telling = `${ride}/told/drop-${atMs}`;
    expect((await api.put(telling, { side: 'past-largest' })).status).toBe(202);
    const after = (await api.get(ride)).body;
    expect(after.counts).toEqual({ ...before.counts, chainDrops: before.counts.chainDrops + 1 });
    expect(after.report.counts).toEqual(after.counts);
    expect(after.report.chainDrops).toHaveLength(after.counts.chainDrops);
    const mine = after.report.chainDrops.find(({ eventKey }: Loose) => eventKey === `drop-${atMs}`);
    expect(mine).toMatchObject({
      side: 'past-largest',
      confidence: 1,
      toldByRider: true,
      verdict: 'told',
      found: null,
    });
    expect(after.judgements).toEqual([{ eventKey: `drop-${atMs}`, verdict: 'told', side: 'past-largest', note: '' }]);
    await api.settled();
    const since = await diagnosis();
    const loose = ({ causes }: Loose): number =>
      causes.find(({ cause }: Loose) => cause === 'low-limit-loose').probability;
    expect(loose(since)).toBeGreaterThan(2 * loose(verdict));
    expect(since.now.since.chainDrops.pastLargest).toBe(verdict.now.since.chainDrops.pastLargest + 1);
    const whole = (await api.get(`/api/bikes/${bikeId}?events=true`)).body.report;
    expect(whole.rides[0].chainDrops).toContainEqual(expect.objectContaining({ toldByRider: true }));
    expect(whole.rides[0].counts).toEqual(after.counts);
    expect(await api.put(`${ride}/told/drop-${atMs + 9000}`, {})).toMatchObject({
      status: 409,
      body: { error: { code: 'told-already' } },
    });
    expect(await api.put(`${ride}/told/drop-${atMs - 7_200_000}`, {})).toMatchObject({
      status: 409,
      body: { error: { code: 'outside-ride' } },
    });
    expect((await api.put(`${ride}/told/shift-${atMs}`, {})).status).toBe(400);
    expect((await api.put(`${ride}/told/skip-${atMs}`, { side: 'unknown' })).status).toBe(400);
    expect((await api.put(`${ride}/told/drop-${atMs}`, { side: 'spokes' })).status).toBe(400);
    expect((await api.delete(`${ride}/judgements/drop-${atMs}`)).status).toBe(202);
    expect((await api.get(ride)).body.report).toEqual(before.report);
    await api.settled();
    expect(await diagnosis()).toEqual(verdict);
  });
});
