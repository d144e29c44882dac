import fs from 'node:fs';
import path from 'node:path';
import { sum } from 'd3-array';
import { expect, it } from 'vitest';
import { analyse, analyseRide, concludeBike, rideFindings } from '../src/analyse.ts';
import type { Bike } from '../src/drivetrain/bike.ts';
import { parseBike } from '../src/drivetrain/parse-bike.ts';
import { ringsUnclearNote } from '../src/gear-trace/guess/unrecorded-rings.ts';
import { rideTrend } from '../src/report/chart-data/ride-trend.ts';
import { ownRides } from '../src/report/own-rides.ts';
import { bikeState } from '../src/report/state/bike-state.ts';
import { verdictOf } from '../src/report/verdict-kind.ts';
import { readRideLog } from '../src/ride-log/read-ride-log.ts';
import { csvBytes } from '../src/simulate/files/csv-bytes.ts';
import { simulateRides } from '../src/simulate/simulate-rides.ts';
import { withoutRecords } from './accuracy/without-records.ts';

const folder = path.join(import.meta.dirname, '../sample-rides/juniper');
const read = (file: string): Buffer => fs.readFileSync(path.join(folder, file));
const juniper = parseBike('bike.json', read('bike.json').toString());
const elevenSpeed: Bike = { ...juniper, cassette: [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 46] };
const findings = (bike: Bike) => rideFindings(analyseRide(readRideLog('ride-1.fit', read('ride-1.fit')), bike), bike);
const conclude = (bike: Bike) => concludeBike({ bike, bikeSource: 'given', bikeNotes: [] }, [findings(bike)], [], []);

it('keeps the ride of a bike with more cogs out of the verdict and says so', () => {
  const judged = ({ cogs }: ReturnType<typeof conclude>): number => cogs.reduce((sum, { shifts }) => sum + shifts, 0);
  const own = conclude(juniper);
  expect(judged(own)).toBeGreaterThan(200);
  expect(own.diagnosis.notes.join()).not.toMatch(/Left out/);

  const foreign = conclude(elevenSpeed);
  expect(judged(foreign)).toBe(0);
  expect(foreign.diagnosis.notes[0]).toMatch(/^Left out of the verdict, the cogs and the adjustments: ride-1\.fit\./);
  expect(foreign.diagnosis.suggestion.namesCause).toBe(false);
  expect(foreign.diagnosis.suggestion.action).toMatch(/the only ride is left out, .* another bike's/);
  // nothing is said of hard pedalling where no shift at all was judged
  expect(foreign.diagnosis.riderPart.sentence).toBe('');
  // of the bike that it does not fit
  expect(foreign.diagnosis.checkRide.sentences).toEqual([]);
  expect(foreign.rides).toHaveLength(1);
});

it('marks which rides do not count, by which everything else goes', () => {
  const own = findings(juniper);
  const { warnings } = own.report;
  const named = (file: string, code: string) => ({
    ...own,
    report: { ...own.report, file, warnings: [...warnings, { code, message: code }] },
  });
  const bike = { bike: juniper, bikeSource: 'given', bikeNotes: [] } as const;
  const rides = [named('other.fit', 'another-bike'), own, named('more.fit', 'more-gears-than-bike')];
  const report = concludeBike(bike, rides, [], []);
  expect(report.rides.map(({ file, leftOut }) => [file, leftOut])).toEqual([
    ['other.fit', 'another-bike'],
    ['ride-1.fit', null],
    ['more.fit', 'another-bike'],
  ]);
  const alone = concludeBike(bike, [own], [], []);
  expect(ownRides(rides, { ...bike, adjustments: [] }).own).toEqual([own]);
  expect(report.cogs).toEqual(alone.cogs);
  expect(rideTrend(report)).toEqual(rideTrend(alone));
  expect(report.diagnosis.notes[0]).toMatch(/: other\.fit, more\.fit\. .* they look like/);
});

it('concludes the same whatever the order in which adjustments of one moment are given', () => {
  const at = '2026-06-01T11:00:00Z';
  const log = [
    { at, parameter: 'index-offset', amount: 1, unit: 'steps', note: '' },
    { at, parameter: 'hanger', amount: null, unit: 'done', note: '' },
    { at, parameter: 'cable-tension', amount: 1, unit: 'clicks', note: '' },
  ] as const;
  const given = { bike: juniper, bikeSource: 'given', bikeNotes: [] } as const;
  const own = [findings(juniper)];
  expect(concludeBike(given, own, log, [])).toEqual(concludeBike(given, own, log.toReversed(), []));
});

it('does not call the teeth of a guessed bike other than written', () => {
  const oneOff: Bike = { ...juniper, rolloutMm: undefined, cassette: juniper.cassette.map((t) => (t === 28 ? 27 : t)) };
  const codes = (bikeSource: 'given' | 'guessed') =>
    concludeBike({ bike: oneOff, bikeSource, bikeNotes: [] }, [findings(oneOff)], [], []).rides[0].warnings.map(
      ({ code }) => code,
    );
  expect(codes('given')).toContain('teeth-differ');
  expect(codes('guessed')).not.toContain('teeth-differ');
});

it('does not send the rider of a bike that records no gears out for more of the same', () => {
  const log = readRideLog('ride-1.fit', read('ride-1.fit'));
  const plain = rideFindings(analyseRide(withoutRecords(log), juniper), juniper);
  const { suggestion } = concludeBike({ bike: juniper, bikeSource: 'given', bikeNotes: [] }, [plain], [], []).diagnosis;
  expect(suggestion.action).toContain('more rides with this recorder will not change that');
});

it('tells which cogs of a guessed bike no ride shows, and sends nobody onto them', () => {
  const rows = [24, 28, 24].flatMap((teeth, i) =>
    Array.from(
      { length: 10 },
      (_, second) => `${10 * i + second},${(80 / 60) * 2.1 * (32 / teeth)},80,${second === 0 ? teeth : ''}`,
    ),
  );
  const log = readRideLog('short.csv', Buffer.from(['time_s,speed_mps,cadence_rpm,rear_teeth', ...rows].join('\n')));
  const report = analyse([log], { bike: null, adjustments: [] });
  expect([report.bike.cassette, report.bikeUnseenCogs]).toEqual([
    [24, 28, 33, 39, 46],
    [33, 39, 46],
  ]);
  const asked = report.diagnosis.checkRide.blocks.map(({ fromTeeth, toTeeth }) => [fromTeeth, toTeeth]);
  expect(asked).toEqual([
    [24, 28],
    [28, 24],
  ]);
  expect(analyse([log], { bike: report.bike, adjustments: [] }).bikeUnseenCogs).toEqual([]);
});

it('says the same of the cogs of a guessed ladder in its words and in the list of those that no ride shows', () => {
  const { log } = simulateRides({ cause: 'no-fault', seed: 2, durationS: 1800, speedSource: 'wheel', formats: [] })[0];
  const report = analyse([withoutRecords(log)], { bike: null, adjustments: [] });
  const [, shown] = /shows \d+ cogs \(([\d, ]+)\)/.exec(report.bikeNotes[0].message) ?? [];
  const named = shown.split(', ').map(Number);
  expect(report.bikeUnseenCogs.length).toBeGreaterThan(0);
  expect(report.bike.cassette.filter((teeth) => !named.includes(teeth))).toEqual(report.bikeUnseenCogs);
});

it('judges a ride whose power meter wrote zeros as one without a meter, and the rest of the ride by what was measured', () => {
  const [{ log }] = simulateRides({
    cause: 'cable-tension-low',
    severity: 'severe',
    seed: 3,
    durationS: 2400,
    speedSource: 'wheel',
    formats: [],
  });
  const half = log.timeS.length / 2;
  const judged = (powerW: Float64Array) => {
    const ride = readRideLog('ride.csv', csvBytes({ ...log, powerW }));
    const [{ evidence, warnings, shifts }] = analyse([ride], { bike: null, adjustments: [] }).rides;
    // expected shifts with trouble: by what is most likely, near ties alone move the sum by a quarter
    const trouble = sum(shifts.map(({ outcomeChances }) => (outcomeChances ? 1 - outcomeChances.clean : 0)));
    return { evidence, shifts, trouble, zeros: warnings.some(({ code }) => code === 'power-zero') };
  };
  const measured = judged(log.powerW);
  const none = judged(log.powerW.map(() => Number.NaN));
  const flat = judged(log.powerW.map(() => 0));
  const fallenSilent = judged(log.powerW.map((power, i) => (i < half ? power : 0)));

  expect(measured.trouble).toBeGreaterThan(15);
  expect([measured.zeros, none.zeros, flat.zeros, fallenSilent.zeros]).toEqual([false, false, true, true]);
  expect(flat).toEqual({ ...none, zeros: true });
  expect(fallenSilent.evidence).toBe('full');
  expect(Math.abs(fallenSilent.trouble - measured.trouble)).toBeLessThanOrEqual(0.2 * measured.trouble);
  // a meter tells soft legs from driving ones: a shift that nobody could see by it may be judged without
  const sureOf = ({ confidence, outcome }: { confidence: number; outcome: string }) =>
    outcome !== 'unjudged' && confidence > 0.9;
  const turned = measured.shifts.filter((shift, i) => {
    const other = fallenSilent.shifts[i];
    return sureOf(shift) && sureOf(other) && shift.outcome !== other.outcome;
  });
  expect(turned).toEqual([]);
});

/** A sound bike with these rings, ridden for an hour by a recorder that names cogs only. */
const rearOnly = (chainrings: readonly number[], seed: number) => {
  const bike: Bike = { ...elevenSpeed, chainrings: [...chainrings], rolloutMm: 2180 };
  return simulateRides({ cause: 'no-fault', seed, bike, gearRecords: 'rear-only', formats: [] })[0].log;
};

it.each([
  [[34, 50], 11],
  [[22, 32, 44], 24],
])('blames no part of a sound bike with rings %j that no record names', (chainrings, seed) => {
  const log = rearOnly(chainrings, seed);
  const report = analyse([log], { bike: null, adjustments: [] });
  const given = analyse([log], {
    bike: { ...report.bike, chainrings: [...chainrings], rolloutMm: 2180 },
    adjustments: [],
  });
  expect(report.bike.chainrings).toHaveLength(chainrings.length);
  expect(report.diagnosis.causes[0].cause).toBe('no-fault');
  expect(report.diagnosis.suggestion.parameter).toBe('none');
  const trouble = ({ rides: [{ counts }] }: typeof report): number => counts.late + counts.missed + counts.overshot;
  expect(report.rides[0].counts.shifts).toBeGreaterThan(100);
  // as good as with the bike described
  expect(Math.abs(trouble(report) - trouble(given))).toBeLessThanOrEqual(2);
});

it('draws no verdict from shifts where it is not clear how many rings there are, but keeps chains that were lost', () => {
  const own = findings(juniper);
  const lost = { ...own.report.counts, chainDrops: 1 };
  const drop = { ...own.events.chainDrops[0], timeS: 60, side: 'past-largest', confidence: 1 } as const;
  const ride = {
    ...own,
    events: { ...own.events, chainDrops: [drop] },
    report: { ...own.report, counts: lost },
  };
  const bikeNotes = [ringsUnclearNote];
  const told = concludeBike({ bike: juniper, bikeSource: 'guessed', bikeNotes: [] }, [ride], [], []);
  expect(told.diagnosis.suggestion.namesCause).toBe(true);
  const at = new Date(own.startMs + 600_000).toISOString();
  const chain = { at, parameter: 'chain', amount: null, unit: 'done', note: '' } as const;
  const report = concludeBike({ bike: juniper, bikeSource: 'guessed', bikeNotes }, [ride], [chain], []);
  // hours in which nobody knows the gear are none in which no skip was seen
  expect(report.adjustments[0].skipping).toMatchObject({ before: { hours: 0 }, after: { hours: 0 } });
  const { suggestion, weighed } = report.diagnosis;
  expect(weighed.judgedShifts).toBe(0);
  expect(verdictOf(report).kind).toBe('nothing-seen');
  expect(suggestion).toMatchObject({ namesCause: false, parameter: 'none', inspectFirst: true });
  expect(suggestion.start).toContain('all its rings');
  expect(suggestion.cautions).toEqual(expect.arrayContaining([expect.stringContaining('spokes')]));
  expect(report.cogs.reduce((sum, { shifts }) => sum + shifts, 0)).toBe(0);
  expect(report.rides[0].warnings.map(({ code }) => code)).toContain('rings-unclear');
  expect(
    bikeState(report, ownRides([ride], { bike: juniper, bikeSource: 'guessed', bikeNotes, adjustments: [] }).own).word,
  ).not.toBe('fine');
});
