import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/report/report-schema.ts';
import { namedCause } from '../../web/bike/named-cause.ts';
import { quietReport } from '../report/state/quiet-report.ts';

const named = (report: Report, word = 'watch') => namedCause({ state: { word }, report } as never)?.cause ?? null;

describe('a named cause with nothing to turn', () => {
  it('is said with its probability', () => {
    expect(named(quietReport('cable-friction', true))).toBe('cable-friction');
    expect(named(quietReport('cable-friction', false))).toBeNull();
    expect(named(quietReport('no-fault', false))).toBe('no-fault');
    expect(named(quietReport('cable-friction', true), 'too little data')).toBeNull();
  });

  it('is not that nothing is wrong where shifts fail that no cause explains', () => {
    const { diagnosis, ...rest } = quietReport('no-fault', false);
    const unexplained = { places: [], where: 'shifts onto the 18', sentence: 'Not explained.', look: 'Look.' };
    expect(named({ ...rest, diagnosis: { ...diagnosis, unexplained } })).toBeNull();
  });

  it('is not said to be likely now where an adjustment made another fault of it, or may have cured it', () => {
    const { diagnosis, ...rest } = quietReport('cable-friction', true);
    for (const setting of ['overdone', 'another', 'unsettled'] as const)
      expect(named({ ...rest, diagnosis: { ...diagnosis, now: { ...diagnosis.now, setting } } })).toBeNull();
  });
});
