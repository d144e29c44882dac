import { describe, expect, it } from 'vitest';
import { asPriorsHave, calibrationBins, type ScoredVerdict, scoreVerdicts } from './verdict-scores.ts';

const verdict = (truth: string, named: string, probability: number): ScoredVerdict => {
  const other = named === 'no-fault' ? 'hanger-bent' : 'no-fault';
  return {
    truth,
    ranked: [
      { cause: named, probability },
      { cause: other, probability: 1 - probability },
    ],
  };
};

describe('scores of verdicts', () => {
  // Brier (1950), equation 2: the mean over occasions of the summed squares, 0 for a sure and right forecast and 2 for a sure and wrong one
  it('are those of the papers at their ends', () => {
    expect(scoreVerdicts([verdict('hanger-bent', 'hanger-bent', 1)])).toMatchObject({ top1: 1, brier: 0 });
    expect(scoreVerdicts([verdict('hanger-bent', 'no-fault', 1)])).toMatchObject({ top1: 0, top2: 1, brier: 2 });
    expect(scoreVerdicts([verdict('hanger-bent', 'no-fault', 0.75)]).logLoss).toBeCloseTo(Math.log(4));
  });

  it('count a verdict as often as its weight says', () => {
    // one bike in order, three with a fault, of which two are found; as often in order as not by the priors
    const verdicts = [
      verdict('no-fault', 'no-fault', 0.55),
      verdict('hanger-bent', 'no-fault', 0.55),
      verdict('hanger-bent', 'hanger-bent', 0.9),
      verdict('hanger-bent', 'hanger-bent', 0.9),
    ];
    const weigh = asPriorsHave(verdicts, { 'no-fault': 0.3, 'hanger-bent': 0.3, 'worn-drivetrain': 0.4 });
    expect(verdicts.map(weigh)).toEqual([2, 2 / 3, 2 / 3, 2 / 3]);
    expect(scoreVerdicts(verdicts).top1).toBeCloseTo(3 / 4);
    expect(scoreVerdicts(verdicts, weigh).top1).toBeCloseTo(5 / 6);
    expect(scoreVerdicts(verdicts, weigh).count).toBe(4);
    const [low, high] = calibrationBins(verdicts, weigh);
    expect(low).toMatchObject({ from: 0.5, count: 2 });
    expect(low.right).toBeCloseTo(3 / 4);
    expect(low.said).toBeCloseTo(0.55);
    expect(high).toMatchObject({ from: 0.9, count: 2, right: 1 });
  });
});
