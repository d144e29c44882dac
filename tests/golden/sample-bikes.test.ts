import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseAdjustments } from '../../src/adjustments/parse-adjustments.ts';
import { analyseRide, concludeBike, rideFindings } from '../../src/analyse.ts';
import { parseBike } from '../../src/drivetrain/parse-bike.ts';
import { ownRides } from '../../src/report/own-rides.ts';
import { reportSchema } from '../../src/report/report-schema.ts';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';

const samples = path.join(import.meta.dirname, '../../sample-rides');

/**
 * The readable report of each sample bike, as a person reviewed it: the healthy bike is left alone, the bike with too little
 * cable tension is called cured by its adjustment, the bent hanger is named although tension was turned in between.
 */
describe.each([
  ['larch', 'fine', 'Nothing points to a mis-set part'],
  ['juniper', 'fine', 'Cable tension too low: it seems cured'],
  ['chough', 'service', 'Derailleur hanger bent'],
] as const)('the sample bike %s', (name, word, headline) => {
  const folder = path.join(samples, name);
  const read = (file: string): string => fs.readFileSync(path.join(folder, file), 'utf8');

  it('gets the reviewed report', async () => {
    const rides = fs
      .readdirSync(folder)
      .filter((file) => file.endsWith('.fit'))
      .sort()
      .map((file) => readRideLog(file, fs.readFileSync(path.join(folder, file))));
    const bike = parseBike('bike.json', read('bike.json'));
    const found = rides.map((ride) => rideFindings(analyseRide(ride, bike), bike));
    const adjustments = parseAdjustments('adjustments.csv', read('adjustments.csv'));
    const report = concludeBike({ bike, bikeSource: 'given', bikeNotes: [] }, found, adjustments, []);
    expect(() => reportSchema.parse(report)).not.toThrow();
    const state = bikeState(report, ownRides(found, { bike, bikeSource: 'given', bikeNotes: [], adjustments }).own);
    expect(state.word).toBe(word);
    expect(verdictHeadline({ bike: report.bike, state, report } as never)).toBe(headline);
    await expect(textReport(report, { width: 96, colour: false })).toMatchFileSnapshot(`${name}.golden.txt`);
  });
});
