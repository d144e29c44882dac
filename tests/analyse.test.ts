import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { analyse, analyseRide, concludeBike, ownRides, rideFindings } from '../src/analyse.ts';
import type { Bike } from '../src/drivetrain/bike.ts';
import { parseBike } from '../src/drivetrain/parse-bike.ts';
import { rideTrend } from '../src/report/chart-data/ride-trend.ts';
import { readRideLog } from '../src/ride-log/read-ride-log.ts';
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
  expect(ownRides(rides)).toEqual([own]);
  expect(report.cogs).toEqual(alone.cogs);
  expect(rideTrend(report)).toEqual(rideTrend(alone));
  expect(report.diagnosis.notes[0]).toMatch(/: other\.fit, more\.fit\. .* they look like/);
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
    Array.from({ length: 10 }, (_, second) => `${10 * i + second},3,${second === 0 ? teeth : ''}`),
  );
  const log = readRideLog('short.csv', Buffer.from(['time_s,speed_mps,rear_teeth', ...rows].join('\n')));
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
