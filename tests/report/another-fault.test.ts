import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { causeBars } from '../../src/report/chart-data/cause-bars.ts';
import { htmlVerdict } from '../../src/report/html/html-verdict.ts';
import { type Report, reportSchema } from '../../src/report/report-schema.ts';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { verdictOf, verdictTone } from '../../src/report/verdict-kind.ts';
import { SINCE_ALONE } from '../../src/report/words/another-fault.ts';
import { curedSentence } from '../../src/report/words/cured-sentence.ts';
import { stillThereSentence } from '../../src/report/words/still-there-sentence.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { nowEvidence, titleOfCausesNow, undecidedSentence } from '../../src/report/words/what-it-was.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { sampleReport } from './sample-report.ts';

const sample = sampleReport();
const { diagnosis } = sample;
const causes = diagnosis.causes
  .map(({ cause }) => ({
    cause,
    probability: cause === 'low-limit-loose' ? 0.89 : 0.01,
    evidence: [`Since then, of ${cause}.`],
  }))
  .sort((a, b) => b.probability - a.probability);
const between = ['cable-tension-low', 'cable-friction'] as const;
/** Tension was too low at first, and the low limit lets the chain past since. */
const report: Report = {
  ...sample,
  diagnosis: {
    ...diagnosis,
    now: { ...diagnosis.now, setting: 'another', fault: 'low-limit-loose', keepOff: ['past-largest'] },
    stillThere: 0.26,
    undecided: { between: [...between], becauseOf: ['x'], sentence: 'Undecided at first.' },
    anotherSince: { causes, weighed: diagnosis.weighed, onset: diagnosis.onset, undecided: null },
  },
};

const html = parseHTML(`<html><body>${htmlVerdict(report).text}</body></html>`).document.body.textContent;

describe('a fault that the rides since the last adjustment show by themselves', () => {
  it.each([
    ['text', textReport(report, { width: 4000 })],
    ['page', html],
  ])('is explained before what was wrong at first, each with its evidence: %s', (_, words) => {
    const places = [
      SINCE_ALONE,
      'Since then, of low-limit-loose.',
      'What it was at first, by all rides together',
      'Shifts to larger cogs: 18 of 70 late or missed.',
    ].map((part) => words.indexOf(part));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    // said in the headline, and once
    expect(words).not.toContain('is still there with a probability');
    expect(words).not.toContain('Undecided at first.');
    expect(words).not.toContain('Since then, of cable-friction.');
  });

  it('is what chart, state, doubt and evidence are of', () => {
    expect(causeBars(report)[0].name).toBe('low limit screw too far out');
    expect(titleOfCausesNow(report, 'All')).toBe(SINCE_ALONE);
    expect(titleOfCausesNow(sample, 'All')).toBe('All');
    expect(nowEvidence(report)).toEqual(['Since then, of low-limit-loose.']);
    expect([stillThereSentence(report), undecidedSentence(report)]).toEqual([null, null]);
    const state = bikeState(report, []);
    expect([state.topCause, state.probability]).toEqual(['low-limit-loose', 0.89]);
    expect(state.word).toBe('service');
    expect(state.reasons.join(' ')).toMatch(
      /It was cable tension too low .*, mostly cured .* low limit screw too far out/,
    );
  });

  it('stands in the report, and not in one of before', () => {
    expect(reportSchema.parse(report).diagnosis.anotherSince?.causes[0].cause).toBe('low-limit-loose');
    const { anotherSince: _, ...older } = diagnosis;
    expect(reportSchema.parse({ ...sample, diagnosis: older }).diagnosis.anotherSince).toBeUndefined();
  });
});

type Changes = Partial<Report['diagnosis']>;
const { since } = diagnosis.now;
const kept = { ...since, chainDrops: { ...since.chainDrops, pastLargest: 0 } };
const open = (a: Cause, b: Cause) => ({ between: [a, b] as [Cause, Cause], becauseOf: ['x'], sentence: 'Open.' });

/** The same with a verdict of all rides in which this cause has so much, and other changes. */
const spoken = (probability: number, changes: Changes): Report => ({
  ...report,
  diagnosis: {
    ...report.diagnosis,
    undecided: null,
    causes: diagnosis.causes.map((one) => (one.cause === 'cable-tension-low' ? { ...one, probability } : one)),
    ...changes,
  },
});

describe.each([
  [
    'a chain that was lost, before the name',
    spoken(0.98, {}),
    'It was cable tension too low (98 %), mostly cured (still there: 26 %). Since then the chain was lost past the largest cog once: likeliest low limit screw too far out (89 %); the chain can go past',
    'Since the last adjustment the chain was lost past the largest cog once: low limit screw too far out',
  ],
  [
    'between which two it is open by now',
    spoken(0.98, {
      anotherSince: { ...report.diagnosis.anotherSince!, undecided: open('low-limit-loose', 'hanger-bent') },
    }),
    'It was cable tension too low (98 %), mostly cured (still there: 26 %). Since then the chain was lost past the largest cog once: open between low limit screw too far out (89 %) and derailleur hanger bent (1 %).',
    'Since the last adjustment the chain was lost past the largest cog once: open between low limit screw too far out and derailleur hanger bent',
  ],
  [
    // what is wrong now made its mark on the list of all rides too
    'of what is gone nothing that is there',
    spoken(0.5, {
      now: { ...report.diagnosis.now, since: kept },
      undecided: open('cable-tension-low', 'low-limit-loose'),
    }),
    'It was cable tension too low (50 %), mostly cured (still there: 26 %). Since then: likeliest low limit screw too far out (89 %);',
    'Since the last adjustment: low limit screw too far out',
  ],
])('the verdict on such a bike says %s', (_, one, sentence, headline) => {
  it('in a sentence and in its headline, as an alarm', () => {
    expect(verdictOf(one).kind).toBe('another');
    expect(verdictSentence(one).startsWith(sentence)).toBe(true);
    const state = bikeState(one, []);
    expect(verdictHeadline({ bike: one.bike, state, report: one } as never)).toBe(headline);
    expect(verdictTone(one)).toBe('alarm');
  });
});

it('credits each of two faults that came one after the other with its own cure', () => {
  const [made] = sample.adjustments;
  const aligned = {
    ...made,
    at: '2026-04-01T12:00:00.000Z',
    parameter: 'hanger',
    amount: null,
    unit: 'done',
    group: 0,
  };
  const clicks = { ...made, at: '2026-04-05T12:00:00.000Z', parameter: 'cable-tension', amount: -1, group: 1 };
  const named = (cause: Cause) =>
    diagnosis.causes
      .map((one) => ({ ...one, probability: one.cause === cause ? 0.9 : 0.01 }))
      .sort((a, b) => b.probability - a.probability);
  const { weighed, onset } = diagnosis;
  const later = { after: aligned.at, causes: named('cable-tension-high'), weighed, onset, undecided: null };
  const changes = { causes: named('hanger-bent'), undecided: null, anotherSince: null, laterCured: later };
  const two = { ...sample, adjustments: [aligned, clicks], diagnosis: { ...diagnosis, ...changes } } as Report;
  expect(curedSentence(two)).toMatch(
    /^It was derailleur hanger bent \(90 %\), and what was done on 2026-04-01 \(.*hanger.*\) seems to have cured it\. After that it was cable tension too high \(90 %\), and what was done on 2026-04-05 \(cable tension -1 .*\) seems to have cured that\.$/,
  );
  const suggestion = { ...diagnosis.suggestion, parameter: 'none' as const };
  const now = { ...diagnosis.now, setting: 'cured' as const };
  const cured = { ...two, diagnosis: { ...two.diagnosis, cured: true, now, suggestion } };
  expect(verdictOf(cured as Report).kind).toBe('cured');
  const state = { ...bikeState(cured as Report, []), word: 'watch', judgedShifts: 300 };
  expect(verdictHeadline({ bike: sample.bike, state, report: cured } as never)).toBe(
    'Two faults one after the other: both seem cured',
  );
});
