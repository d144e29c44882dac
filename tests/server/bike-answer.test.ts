import { expect, it } from 'vitest';
import { needier, pendingAndWhy, staleReason, stateOf, workOf } from '../../server/routes/bike-answer.ts';
import { rideReportSchema } from '../../src/report/ride-report-schema.ts';
import { nothingYet } from '../../src/report/state/bike-state.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides } from './made-rides.ts';

const backlog = (queued: number, rides: number, reportRevision: number | null = null) => ({
  bikeId: 'a',
  revision: 3,
  reportRevision,
  failure: null,
  queued,
  again: 0,
  rides,
});

const { api } = await checkedServer();

it('counts the rides that wait in words that fit their number', () => {
  expect(staleReason(backlog(1, 2), false)).toBe('1 of 2 rides is still to be analysed.');
  expect(staleReason(backlog(2, 3), false)).toBe('2 of 3 rides are still to be analysed.');
  expect(staleReason(backlog(1, 1), false)).toBe('1 of 1 ride is still to be analysed.');
  expect(staleReason(backlog(0, 3, 3), false)).toBeNull();
});

it('says "again" of a report only where there was one before', () => {
  expect(staleReason(backlog(0, 3), true)).toBe('The report is being worked out.');
  expect(staleReason(backlog(0, 3, 2), false)).toBe('The report is being worked out again.');
  expect(pendingAndWhy(backlog(0, 3), null).staleReason).toBe('The report is being worked out.');
  const failed = { ...backlog(0, 3, 3), failure: 'a number that is not finite' };
  const fault = 'because of a fault in this program.';
  expect(staleReason(failed, true)).toBe(`The report could not be worked out ${fault}`);
  expect(staleReason(failed, false)).toBe(`The report could not be worked out again ${fault}`);
  expect(pendingAndWhy(failed, null).staleReason).toBe(`The report could not be worked out ${fault}`);
});

it('puts first what can hurt, then the state, then how likely a fault is in whole per cent, then how often shifts go wrong', () => {
  const counted = { topCause: null, skips: 0, chainsLost: 0, judgedShifts: 100 };
  const state = (
    word: 'service' | 'watch',
    dangers: string[],
    faultProbability: number | null,
    troubleRate: number,
  ) => ({
    word,
    dangers,
    faultProbability,
    troubleRate,
    ...counted,
  });
  const inOrder = [
    state('service', ['The chain left the cassette.', 'The hanger is bent.'], 0.9, 0),
    { ...state('watch', ['The chain left the cassette.'], 0.5, 0), chainsLost: 1 },
    state('service', ['The hanger is bent.'], 0.95, 0),
    state('watch', ['The chain came off the chainring.'], 0.99, 0.2),
    state('service', [], 0.996_1, 0.3),
    state('service', [], 0.996_2, 0.2),
    state('service', [], 0.9, 0.3),
    state('watch', [], 0.9, 0.4),
    state('watch', [], null, 0),
  ];
  expect(inOrder.toReversed().sort(needier)).toEqual(inOrder);
});

it('sets a worn bike among those in the same need by its skips, each as one more shift that went wrong', () => {
  const alike = {
    word: 'service' as const,
    dangers: [],
    faultProbability: 0.99,
    judgedShifts: 100,
    chainsLost: 0,
  };
  const bike = (topCause: 'worn-drivetrain' | 'hanger-bent', skips: number, troubleRate: number) => ({
    ...alike,
    topCause,
    skips,
    troubleRate,
  });
  const inOrder = [
    bike('worn-drivetrain', 60, 0),
    bike('hanger-bent', 80, 0.3),
    bike('worn-drivetrain', 10, 0.01),
    bike('worn-drivetrain', 0, 0.02),
  ];
  expect(inOrder.toReversed().sort(needier)).toEqual(inOrder);
});

it('names the first step of a bike that needs a hand, and none of one that does not', () => {
  const known = { work: 'Have the hanger checked with a gauge.', workPart: 'hanger' };
  const none = { work: null, workPart: null };
  for (const word of ['service', 'watch'] as const) expect(workOf({ state: { word }, ...known }, 0)).toEqual(known);
  for (const word of ['fine', 'too little data'] as const)
    expect(workOf({ state: { word }, ...known }, 0)).toEqual(none);
  expect(workOf({ state: { word: 'service' } }, 0)).toEqual(none);
  // what is being worked out may change it
  expect(workOf({ state: { word: 'service' }, ...known }, 1)).toEqual(none);
  // kept by an older version
  expect(workOf({ state: { word: 'service' }, work: known.work }, 0)).toEqual({ ...known, workPart: null });
});

it('never says that no ride has been analysed while rides are being worked through', () => {
  const kept = { state: { ...nothingYet, reasons: [...nothingYet.reasons], dangers: [], cautionsSaid: [] }, trend: [] };
  for (const summary of [null, kept])
    for (const waiting of [backlog(1, 2), backlog(0, 2)])
      expect(stateOf(summary, waiting)).toMatchObject({
        underWay: true,
        reasons: ['Its rides are still being worked through.'],
      });
  for (const waiting of [undefined, backlog(0, 0), backlog(0, 2, 3)])
    expect(stateOf(null, waiting)).toMatchObject({ underWay: false, reasons: ['No ride has been analysed yet.'] });
  const point = { rideId: 'r', at: '2026-05-01T08:00:00.000Z', troubleRate: null, low: 0, high: 1, shifts: 0 };
  expect(stateOf({ ...kept, trend: [point] }, backlog(1, 2)).underWay).toBe(false);
});

it('says so of a bike in the list, on its page and on its sheet, until its first report is there', async () => {
  const bikeId = await api.addHutBike();
  await api.send(`/api/uploads?bike=${bikeId}`, madeRides(2));
  const states = async () => {
    const { bikes } = (await api.get('/api/bikes')).body;
    const sheet = (await api.get(`/api/bikes/${bikeId}/sheet`)).body;
    const listed = bikes.find(({ id }: { id: string }) => id === bikeId);
    return [listed, (await api.get(`/api/bikes/${bikeId}`)).body, sheet].map(({ state }) => state.underWay);
  };
  expect(await states()).toEqual([true, true, true]);
  await api.settled();
  expect(await states()).toEqual([false, false, false]);
});

const lists = ['shifts', 'ghostShifts', 'chainDrops', 'skips', 'gears'] as const;

it('gives of every ride the lists that its counts sum up, or no lists where they are not wanted', async () => {
  const { body } = await api.post('/api/bikes', { ...hutBike, name: 'Listed' });
  await api.send(`/api/uploads?bike=${body.id}`, madeRides(2, { seed: 7 }));
  await api.settled();
  const { report: whole, ...rest } = (await api.get(`/api/bikes/${body.id}`)).body;
  expect(whole.rides).toHaveLength(2);
  for (const ride of whole.rides) {
    expect(rideReportSchema.safeParse(ride).error).toBeUndefined();
    const { shifts, ghostShifts, chainDrops, skips } = ride.counts;
    expect(shifts).toBeGreaterThan(5);
    expect(lists.slice(0, 4).map((list) => ride[list].length)).toEqual([shifts, ghostShifts, chainDrops, skips]);
    for (const outcome of ['clean', 'late', 'missed', 'overshot', 'unjudged'])
      expect(ride.shifts.filter((shift: Loose) => shift.outcome === outcome)).toHaveLength(ride.counts[outcome]);
    expect(ride.gears.length).toBeGreaterThan(1);
  }
  const short = (await api.get(`/api/bikes/${body.id}?events=false`)).body;
  const without = (ride: Loose) =>
    Object.fromEntries(Object.entries(ride).filter(([key]) => !lists.includes(key as never)));
  expect(short).toEqual({ ...rest, report: { ...whole, rides: whole.rides.map(without) } });
});
