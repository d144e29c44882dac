import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { htmlVerdict, htmlWeighed } from '../../src/report/html/html-verdict.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { limitVerdict } from '../../src/report/words/limit-verdict.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { causesTitle, wasOnce } from '../../src/report/words/what-it-was.ts';
import { sampleReport } from './sample-report.ts';

const sample = sampleReport();
const undecided = {
  between: ['cable-friction', 'low-limit-loose'] as [Cause, Cause],
  becauseOf: ['x'],
  sentence: 'Undecided between two.',
};

/** Text and page of a report in which friction leads, and tension was turned too far: `named` where friction is one cause and no other. */
function wordsOf(named: boolean): string[] {
  const { diagnosis } = sample;
  const causes = diagnosis.causes
    .map((one) => ({
      ...one,
      probability: one.cause === 'cable-friction' ? (named ? 0.9 : 0.42) : (named ? 0.1 : 0.58) / 11,
      evidence: [`Seen of ${one.cause}.`],
    }))
    .sort((a, b) => b.probability - a.probability);
  const now = { ...diagnosis.now, setting: 'overdone' as const, fault: 'cable-tension-low' as const };
  const report: Report = { ...sample, diagnosis: { ...diagnosis, causes, now, undecided: named ? null : undecided } };
  const page = parseHTML(`<html><body>${htmlVerdict(report).text}${htmlWeighed(report)?.text}</body></html>`).document
    .body.textContent;
  return [textReport(report, { width: 4000 }), page];
}

describe('a verdict on what an adjustment made of the bike', () => {
  it.each([true, false])(
    'is followed by what speaks for it, and by no doubt about what was before (named: %s)',
    (named) => {
      for (const words of wordsOf(named)) {
        expect(words).toContain('Seen of cable-tension-low.');
        expect(words).not.toContain('Undecided between two.');
        // what was wrong at first is explained only where it is known
        expect(words.includes('Seen of cable-friction.')).toBe(named);
        expect(words).toContain('at first');
      }
      expect(wordsOf(named)[0]).toMatch(/Weighed by all rides together, as one fault that was there at first: /);
    },
  );
});

describe('causes that are gone', () => {
  const { diagnosis } = sample;
  const cured: Report = {
    ...sample,
    diagnosis: {
      ...diagnosis,
      cured: true,
      suggestion: { ...diagnosis.suggestion, parameter: 'none' },
      undecided: null,
    },
  };

  it('are listed as what it was', () => {
    expect([wasOnce(cured), causesTitle(cured, 'All')]).toEqual([true, 'What it was at first, by all rides together']);
    expect([wasOnce(sample), causesTitle(sample, 'All')]).toEqual([false, 'All']);
    expect(textReport(cured)).toContain('What it was at first');
    expect(textReport(sample)).not.toContain('What it was at first');
  });

  it('were cured by all that was done between the same shifts, each of it named', () => {
    const [one] = cured.adjustments;
    const chain = { ...one, parameter: 'chain', amount: null, unit: 'done' };
    expect(verdictSentence({ ...cured, adjustments: [one, chain] })).toMatch(
      /^It was cable tension too low \(78 %\), and what was done on \S+ \(cable tension \+2 clicks and chain replaced\) seems to have cured it\.$/,
    );
  });
});

describe('a limit that was opened and has let the chain past its cog since', () => {
  const end = (lostBefore: number) => ({
    end: 'past-largest' as const,
    before: { asked: 3, shifts: 3, trouble: 0, lost: lostBefore },
    after: { asked: 3, shifts: 3, trouble: 0, lost: 1 },
  });
  const opened = { ...sampleReport().adjustments[0], amount: -1, probabilityBetter: 0.23, shiftsStillNeeded: null };

  it('went too far, whatever the rates say', () => {
    expect(limitVerdict(end(0), opened)).toEqual([
      'It went too far: 0 of 3 shifts onto the largest cog went wrong before, 1 of 3 since (the chain was lost past it once).',
    ]);
    for (const [count, made, said] of [
      [end(1), opened, /^1 of 3 shifts onto the largest cog went wrong before .*, 1 of 3 since/],
      [end(0), { ...opened, amount: 1 }, /^Not decided yet/],
    ] as const)
      expect(limitVerdict(count, made)[0]).toMatch(said);
  });
});
