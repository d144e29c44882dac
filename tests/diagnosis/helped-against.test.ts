import { describe, expect, it } from 'vitest';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { adjustmentReport } from '../../src/report/adjustment-report.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { type adjustedBike, slow, verdictOn } from './now/adjusted-bikes.ts';
import { cableBike, healthyPattern } from './pattern-ride.ts';

const [low, milder] = [slow('to-larger', 0.3, 0.3), slow('to-larger', 0.12, 0.08)];
const said = (verdict: Diagnosis): string =>
  adjustmentVerdict(adjustmentReport(verdict.comparisons[0], cableBike, verdict));
const afterTurning = (amount: number, ...more: Parameters<typeof adjustedBike>[0]): Diagnosis =>
  verdictOn([
    { pattern: low },
    { pattern: low },
    { pattern: milder, after: ['cable-tension', amount] },
    { pattern: milder },
    ...more,
  ]);

describe('an entry that went towards the fault, and yet it got better', () => {
  it('is doubted beside what it did, and not taken back', () => {
    const verdict = afterTurning(-2);
    expect([verdict.now.setting, verdict.causes[0].cause]).toEqual(['same', 'cable-tension-low']);
    expect(verdict.helpedAgainst).toEqual([
      { at: '2026-05-04T18:00:00.000Z', parameter: 'cable-tension', fault: 'cable-tension-low' },
    ]);
    expect(verdict.wrongWays).toEqual([]);
    expect(said(verdict)).toMatch(
      /^It helped: .* Yet it went the wrong way for too low a cable tension: check its part, amount and sign\./,
    );
  });

  it('is doubted still once more is logged without a ride since', () => {
    const verdict = afterTurning(-2, { pattern: milder, shifts: 0, after: ['cable-tension', 3] });
    expect(verdict.now.setting).toBe('untested');
    expect(verdict.helpedAgainst).toEqual(afterTurning(-2).helpedAgainst);
    expect(verdict.wrongWays).toEqual([]);
  });

  it('is none that went the right way', () => {
    const verdict = afterTurning(2);
    expect(verdict.helpedAgainst).toEqual([]);
    expect(said(verdict)).not.toMatch(/wrong way/);
  });
});

describe('a cure that was taken back, with no ride since', () => {
  const step = (amount: number): string => {
    const cured = [
      { pattern: low },
      { pattern: low },
      { pattern: healthyPattern, after: ['cable-tension', 3] as const },
    ];
    const last = { pattern: healthyPattern, after: ['cable-tension', amount] as const };
    return verdictOn([...cured, { ...last, shifts: 0 }]).suggestion.action;
  };

  it('is put back before the ride, unless it was meant', () => {
    expect(step(-3)).toMatch(
      /^What was done on 2026-05-06 takes back what cured it on 2026-05-04 \(2 of \d+ judged .*\): turn the barrel adjuster 3 clicks anticlockwise again, unless it was meant\. Then ride before anything more is turned/,
    );
  });

  it('is none where it was turned further the same way', () => {
    expect(step(1)).not.toMatch(/takes back/);
  });
});
