import { describe, expect, it } from 'vitest';
import { againstAdvice, turningAdvice } from '../../web/bike/turning-advice.ts';
import { sampleReport } from '../report/sample-report.ts';

const advised = { parameter: 'cable-tension', sense: -1, sinceMs: Date.UTC(2026, 4, 3) } as const;
const entry = { at: '2026-05-03T12:00:00Z', parameter: 'cable-tension', amount: 1 };

describe('againstAdvice', () => {
  it('asks where the entry goes the other way than the next step', () => {
    expect(againstAdvice(entry, advised)).toBe('The next step asks for clockwise; this says anticlockwise.');
    expect(
      againstAdvice(
        { ...entry, parameter: 'low-limit', amount: -0.5 },
        { ...advised, parameter: 'low-limit', sense: 1 },
      ),
    ).toBe('The next step asks for clockwise; this says anticlockwise.');
  });

  it('asks nothing where it follows the step, is about another part, or was done before the step was known', () => {
    expect(againstAdvice({ ...entry, amount: -2 }, advised)).toBeNull();
    expect(againstAdvice({ ...entry, parameter: 'pulley-gap' }, advised)).toBeNull();
    expect(againstAdvice({ ...entry, at: '2026-05-02T12:00:00Z' }, advised)).toBeNull();
    expect(againstAdvice(entry, null)).toBeNull();
  });
});

describe('turningAdvice', () => {
  it('is what the next step turns, as of the end of the last ride', () => {
    const report = sampleReport();
    const { suggestion } = report.diagnosis;
    const told = { ...report, diagnosis: { ...report.diagnosis, suggestion: { ...suggestion, sense: 1 as const } } };
    const last = Math.max(...report.rides.map(({ start, durationS }) => Date.parse(start) + durationS * 1000));
    expect(turningAdvice(told)).toEqual({ parameter: suggestion.parameter, sense: 1, sinceMs: last });
    expect(
      turningAdvice({ ...told, diagnosis: { ...told.diagnosis, suggestion: { ...suggestion, sense: null } } }),
    ).toBeNull();
    expect(turningAdvice(null)).toBeNull();
  });
});
