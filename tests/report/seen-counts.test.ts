import { describe, expect, it } from 'vitest';
import { htmlReport } from '../../src/report/html/html-report.ts';
import type { BikeRide } from '../../src/report/ride-report-schema.ts';
import { seenCounts } from '../../src/report/seen-counts.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { sampleReport } from './sample-report.ts';

const report = sampleReport();
const [ride] = report.rides;
const zero = Object.fromEntries(Object.keys(ride.counts).map((name) => [name, 0])) as BikeRide['counts'];
const of = (evidence: BikeRide['evidence'], counts: Partial<BikeRide['counts']> = {}) =>
  ({ ...ride, evidence, counts: { ...zero, ...counts } }) as BikeRide;

const sparse = (one: BikeRide): BikeRide => ({ ...one, warnings: [{ code: 'sparse-records', message: 'far apart' }] });

describe('what cannot be seen in a ride is no 0', () => {
  it.each<[string, BikeRide, string]>([
    ['all recorded', of('full', { shifts: 4, clean: 4 }), '4 4 0 0 0 0 0 0'],
    ['none judged', of('full', { shifts: 2, unjudged: 2 }), '2 0 - - - 0 0 0'],
    ['no cadence', of('commands-only', { shifts: 3, unjudged: 3 }), '3 0 - - - - - -'],
    ['no gear records', of('ratio-only', { skips: 1 }), '- - - - - - 0 1'],
    ['records far apart', sparse(of('full', { shifts: 4, clean: 4 })), '4 4 0 0 0 0 0 -'],
    ['a skip found all the same', sparse(of('full', { shifts: 4, clean: 4, skips: 1 })), '4 4 0 0 0 0 0 1'],
    ['nothing', of('none'), '- - - - - - - -'],
  ])('%s', (_what, one, cells) => {
    const { shifts, judged, late, missed, overshot, ghostShifts, chainDrops, skips } = seenCounts(one);
    const numbers = [shifts, judged, late, missed, overshot, ghostShifts, chainDrops, skips];
    expect(numbers.map((number) => number ?? '-').join(' ')).toBe(cells);
    const row = /<th scope="row">1<\/th>(.*)<\/tr>/.exec(htmlReport({ ...report, rides: [one] }))?.[1] ?? '';
    expect(
      [...row.matchAll(/<td>([^<]*)<\/td>/g)]
        .map(([, cell]) => cell)
        .slice(1)
        .join(' '),
    ).toBe(cells);
    const text = textReport({ ...report, rides: [one] });
    const judgedCell = shifts === null ? '-' : `${judged} of ${shifts}`;
    expect(/^1 {2}\S+ \S+ +\S+ +(.*)$/m.exec(text)?.[1].replaceAll(/ {2,}/g, '|')).toBe(
      [judgedCell, ...cells.split(' ').slice(2)].join('|'),
    );
    expect(text.includes('cannot show it')).toBe(cells.includes('-'));
  });
});
