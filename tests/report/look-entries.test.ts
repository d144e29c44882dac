import { describe, expect, it } from 'vitest';
import { htmlReport } from '../../src/report/html/html-report.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleReport } from './sample-report.ts';

const report = sampleReport();
const looks = [{ at: '2026-05-07T12:00:00Z', parameter: 'hanger', unit: 'done' }];

describe('what was looked at and found right', () => {
  it('is listed as such in text and page, and not where nothing was', () => {
    for (const written of [textReport, htmlReport]) {
      const words = written({ ...report, looks }).replaceAll(/\s+/g, ' ');
      expect(words).toContain('Looked at and found right');
      expect(words).toContain('2026-05-07 12:00 UTC derailleur hanger looked at, found right. Nothing was turned');
      expect(written(report)).not.toContain('Looked at and found right');
    }
  });
});

it('heads a low limit that may be a bent hanger as one or the other', () => {
  const [ride] = report.rides;
  const lost = (confidence: number) => ({
    at: ride.start,
    side: 'past-largest' as const,
    afterShiftTo: 51,
    confidence,
  });
  const named = (limitOrHanger: boolean, namesCause = true, sure = 1): string =>
    verdictSentence({
      ...report,
      rides: [{ ...ride, chainDrops: [lost(sure)] }],
      diagnosis: {
        ...report.diagnosis,
        causes: [{ cause: 'low-limit-loose', probability: 0.94, evidence: [] }],
        ...{ undecided: null, unexplained: null, limitOrHanger, shiftsWellSince: null, cured: false },
        now: { ...report.diagnosis.now, setting: 'same' },
        suggestion: { ...report.diagnosis.suggestion, namesCause },
      },
    });
  expect(named(true)).toMatch(/^The chain was lost past the largest cog: low limit or hanger\. .* gauged first\.$/);
  expect(named(true, false)).toMatch(
    /^The chain was lost past the largest cog: low limit or hanger, not yet told apart/,
  );
  expect(named(true, true, 0.7)).toMatch(
    /^The chain seems to have been lost past the largest cog: low limit or hanger\. /,
  );
  expect(named(true, true, 0.8)).toMatch(/^The chain was lost past the largest cog/);
  expect(named(false, false)).toMatch(/^No part is named yet/);
  expect(named(false)).toMatch(/^Likeliest: low limit screw too far out/);
});
