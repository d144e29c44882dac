import { sum } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { parseAdjustments } from '../../../src/adjustments/parse-adjustments.ts';
import { analyse } from '../../../src/analyse.ts';
import type { Bike } from '../../../src/drivetrain/bike.ts';
import { heldBack } from '../../../src/report/held/held-back.ts';
import { bikeState } from '../../../src/report/state/bike-state.ts';
import { verdictOf } from '../../../src/report/verdict-kind.ts';
import { ridesAnalysed } from '../../../src/report/words/rides-analysed.ts';
import { verdictSentence } from '../../../src/report/words/verdict-words.ts';
import { readRideLog } from '../../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { verdictHeadline } from '../../../web/bike/verdict-headline.ts';
import { MadeRide, madeBike } from '../../gear-trace/made-ride.ts';

const another: Bike = { ...madeBike, chainrings: [48], cassette: [11, 12, 13, 14, 16, 18, 20, 22, 25] };
/** No cog of it is one of `madeBike`. */
const unlike: Bike = { ...madeBike, cassette: [10, 12, 14, 16, 19, 22, 25, 29, 33] };
const wider: Bike = { ...madeBike, cassette: [11, 13, 15, 17, 21, 25, 30, 36, 42] };

/** Named as `madeBike`'s by position, so that no record tells: its steps from cog to cog are others. */
const otherSteps: Bike = { ...madeBike, cassette: [11, 12, 13, 14, 15, 17, 19, 21, 23] };

/** Three quarters of an hour over the cassette on a given day; from the 20 on shifts to larger cogs miss where `sound` is false. */
function ridden(day: number, bike = madeBike, sound = true): RideLog {
  const ride = new MadeRide(bike, 0.004, day);
  const way = [5, 6, 7, 8, 7, 6, 5, 4, 3, 2, 1, 0, 1, 2, 3, 4];
  for (const cog of [...way, ...way, ...way]) {
    ride.command(cog).pedal(1);
    if (sound || cog < ride.cog || cog < 4) ride.move(cog);
    ride.pedal(20).pedal(12, { cadenceRpm: 95 }).move(cog).pedal(8);
  }
  return ride.log({ file: `day-${day}.csv`, format: 'csv', startMs: Date.parse(`2026-05-0${day}T08:00:00Z`) });
}

const none = new Uint8Array(0);
const noRecords = {
  timeS: new Float64Array(0),
  frontTeeth: none,
  rearTeeth: none,
  frontPosition: none,
  rearPosition: none,
};
const inKmh = (log: RideLog): RideLog => ({ ...log, speedMps: log.speedMps.map((speed) => 3.6 * speed) });
const report = (logs: readonly RideLog[], bike: Bike | null, adjustments = '') =>
  analyse(logs, { bike, adjustments: adjustments ? parseAdjustments('adjustments.csv', adjustments) : [] });
const newCassette = 'at,parameter,amount,unit,note\n2026-05-02T18:00:00Z,cassette,,done,';

/** The tallies hold the judged shifts of those rides, and of those alone, that say nothing against it. */
function expectTallied({ rides, cogs }: ReturnType<typeof report>, notTallied: readonly (string | null)[]): void {
  expect(rides.map((ride) => ride.notTallied)).toEqual(notTallied);
  const judged = rides
    .filter((ride) => ride.leftOut === null && ride.notTallied === null)
    .map(({ counts }) => counts.clean + counts.late + counts.missed + counts.overshot);
  expect(sum(cogs, ({ shifts }) => shifts)).toBe(sum(judged));
}

/** What stands wherever no verdict is drawn. */
function expectHeldBack(found: ReturnType<typeof report>, code: string, start: RegExp): void {
  const { heldBack, suggestion, checkRide, separates, undecided, weighed } = found.diagnosis;
  expect(heldBack?.code).toBe(code);
  expect(verdictOf(found).kind).toBe('nothing-seen');
  expect(verdictSentence(found)).toBe(heldBack?.sentence);
  expect(suggestion).toMatchObject({ namesCause: false, parameter: 'none', sense: null });
  expect(suggestion.start).toMatch(start);
  expect([checkRide.blocks, checkRide.sentences, separates, undecided]).toEqual([[], [], null, null]);
  expect(weighed.judgedShifts).toBe(0);
  const state = bikeState(found, []);
  expect(state.word).toBe('too little data');
  expect(state.reasons).toEqual([heldBack?.sentence]);
  expect(verdictHeadline({ bike: found.bike, state, report: found } as never)).toBe(heldBack?.headline);
}

describe('no verdict is drawn', () => {
  it('from rides of several bikes, from which one was guessed', () => {
    const logs = [ridden(1, madeBike, false), ridden(2, another, false)];
    const found = report(logs, null);
    expectHeldBack(found, 'rides-apart', /the rides of each bike by themselves/);
    // the bike was guessed from both: neither ride is another's, and neither is told apart from it
    expect(found.rides.map(({ leftOut }) => leftOut)).toEqual([null, null]);
    expectTallied(found, ['rides-apart', 'rides-apart']);
    expect(ridesAnalysed(found)).toBe('2 rides analysed, 2 of them not weighed');
    for (const { warnings } of found.rides) {
      expect(warnings.map(({ code }) => code)).toEqual(['rides-apart']);
      expect(warnings[0].message).toContain('sound shifts look late, missed or overshot');
    }
    expect(JSON.stringify(found)).not.toContain("another bike's");
    const alone = report([logs[0]], null);
    expectTallied(alone, [null]);
    expect(alone.diagnosis.heldBack).toBeNull();
    expect(alone.diagnosis.weighed.judgedShifts).toBeGreaterThan(30);
  });

  it('from a speed that is not in metres a second, unless other rides are', () => {
    expectHeldBack(report([inKmh(ridden(1))], madeBike), 'speed-unit', /metres a second/);
    const found = report([ridden(1), inKmh(ridden(2))], madeBike);
    expectTallied(found, [null, 'speed-unit']);
    const { diagnosis } = found;
    expect(diagnosis.heldBack).toBeNull();
    expect(diagnosis.weighed.rides).toBe(1);
    expect(diagnosis.notes[0]).toContain('day-2.csv');
  });

  it('from gear records that name positions in place of teeth', () => {
    const log = ridden(1);
    const rows = [...log.timeS].map((timeS, i) => {
      const record = log.gearRecords.timeS.indexOf(timeS);
      const position = madeBike.cassette.indexOf(log.gearRecords.rearTeeth[record]) + 1;
      return [timeS, log.speedMps[i], log.cadenceRpm[i], ...(record < 0 ? ['', ''] : [40, position])].join(',');
    });
    const csv = ['time_s,speed_mps,cadence_rpm,front_teeth,rear_teeth', ...rows].join('\n');
    const read = readRideLog('positions.csv', new TextEncoder().encode(csv));
    const found = report([read], madeBike);
    expectHeldBack(found, 'positions-for-teeth', /^Write the teeth of each cog/);
    expect(found.diagnosis.heldBack?.sentence).toContain('no gear changes that can be read');
  });

  it("where all rides name other cogs than the bike's, by which sound shifts look missed", () => {
    const silent: RideLog = { ...ridden(4), gearRecords: { ...ridden(4).gearRecords, ...noRecords } };
    const found = report([ridden(1, unlike, false), ridden(2, unlike, false), silent], madeBike);
    expectHeldBack(found, 'other-cogs', /^Count the teeth on the bike/);
    expect(found.rides.map(({ leftOut }) => leftOut)).toEqual([null, null, null]);
    expectTallied(found, ['other-cogs', 'other-cogs', null]);
    // what is noted of the rollout comes of the wrong teeth
    expect(found.rides[0].warnings.map(({ code }) => code)).toEqual(['another-bike']);
    // their own bike has its verdict, and beside a ride of this bike they are another's
    expect(report([ridden(1, unlike, false)], unlike).diagnosis.heldBack).toBeNull();
    const beside = report([ridden(1, unlike, false), ridden(2)], madeBike);
    expect(beside.diagnosis.heldBack).toBeNull();
    expect(beside.rides.map(({ leftOut }) => leftOut)).toEqual(['another-bike', null]);
  });

  it('where bike and records name the same cogs, and the rides show the steps of others', () => {
    const named = (log: RideLog): RideLog => {
      const rearTeeth = log.gearRecords.rearTeeth.map((teeth) => madeBike.cassette[otherSteps.cassette.indexOf(teeth)]);
      return { ...log, gearRecords: { ...log.gearRecords, rearTeeth } };
    };
    const found = report([named(ridden(1, otherSteps)), named(ridden(2, otherSteps))], madeBike);
    expectHeldBack(found, 'other-steps', /^Count the teeth on the bike/);
    expectTallied(found, ['other-steps', 'other-steps']);
    expect(found.rides[0].warnings.map(({ code }) => code)).toEqual(['cog-steps-differ']);
    // described with them it has its verdict, and beside a ride of this bike that one alone is not weighed
    expect(report([ridden(1, otherSteps)], otherSteps).diagnosis.heldBack).toBeNull();
    const beside = report([named(ridden(1, otherSteps)), ridden(2)], madeBike);
    expect(beside.diagnosis.heldBack).toBeNull();
    expectTallied(beside, ['other-steps', null]);
  });

  it('where neither the records nor the rides are of the cogs that a bike was saved with, as of one guessed from the rides of others', () => {
    const rides = [ridden(1, another), ridden(2, another)];
    // four of its cogs are the saved bike's, so that most teeth that show are: by these alone it is not another's
    const found = report(rides, unlike);
    expectHeldBack(found, 'other-steps', /^Count the teeth on the bike/);
    expectTallied(found, ['other-steps', 'other-steps']);
    expect(found.rides.map(({ leftOut }) => leftOut)).toEqual([null, null]);
    const codes = found.rides[0].warnings.map(({ code }) => code);
    expect(codes).toEqual(['cog-steps-differ', 'recorded-teeth-differ']);
    expect(found.rides[0].warnings[0].message).toMatch(/its gears lie \d+ % beside them .* not weighed/);
    expect(report(rides, another).diagnosis.heldBack).toBeNull();
    const beside = report([ridden(1, another), ridden(2, unlike)], unlike);
    expect(beside.diagnosis.heldBack).toBeNull();
    expectTallied(beside, ['other-steps', null]);
  });

  it('but not where a cog or two are not as written: those are measured', () => {
    const written = { ...madeBike, cassette: madeBike.cassette.map((teeth, cog) => (cog === 4 ? teeth + 1 : teeth)) };
    const found = report([ridden(1), ridden(2)], written);
    expect(found.rides[0].warnings.map(({ code }) => code)).toContain('recorded-teeth-differ');
    expect(found.diagnosis.heldBack).toBeNull();
    expectTallied(found, [null, null]);
  });

  it("but not for slips of a recorder that names one more size beside all of the bike's", () => {
    const log = ridden(1);
    const { rearTeeth } = log.gearRecords;
    const slipped = {
      rearTeeth: rearTeeth.map((teeth, i) => (i % 20 === 5 ? 27 : teeth)),
      rearPosition: new Uint8Array(rearTeeth.length),
    };
    const found = report([{ ...log, gearRecords: { ...log.gearRecords, ...slipped } }], madeBike);
    expect(found.rides[0].warnings.map(({ code }) => code)).toContain('another-bike');
    expect(found.diagnosis.heldBack).toBeNull();
    expectTallied(found, [null]);
  });

  it('of a cassette that is no longer on the bike', () => {
    const logs = [ridden(1), ridden(3, wider)];
    const found = report(logs, madeBike, newCassette);
    expectHeldBack(found, 'another-cassette', /with the cogs that it has now/);
    expect(found.rides.map(({ leftOut }) => leftOut)).toEqual([null, null]);
    expectTallied(found, [null, 'another-cassette']);
    expect(found.rides[1].warnings.map(({ code }) => code)).toEqual(['another-cassette']);
    expect(report(logs, madeBike).diagnosis.heldBack).toBeNull();
  });

  it('but is where the bike is described as it is now: the rides of before are not weighed', () => {
    const { diagnosis, rides } = report([ridden(1), ridden(3, wider)], wider, newCassette);
    expect(diagnosis.heldBack).toBeNull();
    expect(diagnosis.weighed.rides).toBe(1);
    expect(rides[0].warnings.map(({ code }) => code)).toEqual(['another-cassette']);
  });

  it('nor does one ride that names positions hold it back beside rides that can be read', () => {
    const ride = (day: number, ...codes: string[]) => ({
      start: `2026-05-0${day}T08:00:00Z`,
      gearSource: codes.length > 0 ? ('none' as const) : ('recorded' as const),
      leftOut: null,
      warnings: codes.map((code) => ({ code, message: '' })),
    });
    const positions = { ride: ride(1, 'positions-for-teeth'), why: null };
    expect(heldBack([], [positions])?.code).toBe('positions-for-teeth');
    expect(heldBack([], [positions, { ride: ride(2), why: null }])).toBeNull();
  });
});
