import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { buildReport } from '../../src/report/build-report.ts';
import { htmlReport } from '../../src/report/html/html-report.ts';
import { type Report, reportSchema } from '../../src/report/report-schema.ts';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { verdictOf } from '../../src/report/verdict-kind.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { adjustedBike, lost, pastTheMark, shortOf } from '../diagnosis/now/adjusted-bikes.ts';
import { healthyPattern } from '../diagnosis/pattern-ride.ts';
import { sampleReport } from './sample-report.ts';

/** The report of a made bike; its rides are listed with their lost chains alone. */
function reportOn(...given: Parameters<typeof adjustedBike>): Report {
  const input = adjustedBike(...given);
  const diagnosis = diagnose(input);
  const [listed] = sampleReport().rides;
  return buildReport({
    bike: input.bike,
    bikeSource: 'given',
    bikeNotes: [],
    bikeUnseenCogs: [],
    rides: input.rides.map(({ startMs, events }) => ({
      ...listed,
      start: new Date(startMs).toISOString(),
      chainDrops: events.chainDrops.map(({ timeS, side, confidence }) => ({
        at: new Date(startMs + timeS * 1000).toISOString(),
        side,
        afterShiftTo: null,
        confidence,
      })),
    })),
    failed: [],
    cogs: [],
    diagnosis,
    adjustments: diagnosis.comparisons,
  });
}

/** Everything that is said of the bike: text, page of the report, headline and state of its page. */
function said(report: Report) {
  const text = textReport(report, { width: 4000 });
  const page = parseHTML(htmlReport(report)).document.body.textContent;
  const state = bikeState(report, []);
  const headline = verdictHeadline({ bike: report.bike, state, report } as never);
  return { all: [text, page, headline, ...state.reasons], text, page, state, headline };
}

describe('what is said of a bike whose last adjustment went too far', () => {
  const [, , , , mild, electronic] = pastTheMark;
  const opened = [
    '-2 turns of the low limit',
    [
      { pattern: shortOf('largest') },
      { pattern: shortOf('largest') },
      { pattern: healthyPattern, drops: lost('past-largest', 3), after: ['low-limit', -2] },
    ],
  ] as const satisfies readonly [string, ...Parameters<typeof adjustedBike>];
  const cases = [
    [...mild, 'cable-tension-high', 'cable tension too high'],
    [...electronic, 'cable-tension-high', 'index offset too far inboard'],
    [...opened, undefined, 'low-limit-loose', 'low limit screw too far out'],
  ] as const;

  it.each(cases)('%s: is the same in text, page, headline and state', (_, rides, bike, fault, name) => {
    const report = reportOn(rides, bike);
    expect(() => reportSchema.parse(report)).not.toThrow();
    const { all, text, page, state, headline } = said(report);
    expect(verdictOf(report).kind).toBe('overdone');
    expect(headline).toBe(`The last adjustment went too far: ${name}`);
    for (const words of [text, page, state.reasons.join(' ')])
      expect(words).toContain(`and the last adjustment went too far: now it is ${name};`);
    expect([state.word, state.topCause]).toEqual(['service', fault]);
    for (const words of all)
      expect(words).not.toMatch(/seems to have cured|Leave it as it is|Nothing needs to be turned/);
    const { clicks, suggestion } = report.diagnosis;
    // whoever reads nothing but the numbers and the step sees one direction
    if (clicks.parameter === suggestion.parameter) {
      expect(clicks.mean).toBeLessThan(0);
      expect(report.diagnosis.lateralOffsetMm.mean).toBeGreaterThan(0);
      for (const words of [text, page])
        expect(words).toMatch(/the setting needs about [\d.]+ (clicks clockwise|steps outboard)/);
    }
    // what the causes mean stays: what was mis-set
    expect(report.diagnosis.causes).toHaveLength(12);
    expect(report.diagnosis.causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(text).toMatch(/It was .* too (low|far outboard|far in) \(\d+ %\)/);
  });
});
