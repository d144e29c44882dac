import { describe, expect, it } from 'vitest';
import { bikeState } from '../../server/state/bike-state.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { namedCause } from '../../web/bike/named-cause.ts';
import { sampleReport } from '../report/sample-report.ts';

/** A bike of 98 % friction on which nothing can be turned. */
function stiffBike(namesCause: boolean, top: Cause = 'cable-friction'): Report {
  const report = sampleReport();
  const { diagnosis } = report;
  const rest = diagnosis.causes.filter(({ cause }) => cause !== top).map((cause) => ({ ...cause, probability: 0.002 }));
  const suggestion = { ...diagnosis.suggestion, namesCause, parameter: 'none' };
  return {
    ...report,
    // quiet tallies: neither the rate of trouble nor a lost chain decides
    adjustments: [],
    cogs: report.cogs.map((cog) => ({ ...cog, late: 0, missed: 0, overshot: 0 })),
    rides: report.rides.map((ride) => ({ ...ride, chainDrops: [] })),
    diagnosis: { ...diagnosis, causes: [{ cause: top, probability: 0.98, evidence: [] }, ...rest], suggestion },
  };
}

const named = (report: Report, word = 'watch') => namedCause({ state: { word }, report } as never)?.cause ?? null;

describe('a named cause with nothing to turn', () => {
  it('is said with its probability', () => {
    expect(named(stiffBike(true))).toBe('cable-friction');
    expect(named(stiffBike(false))).toBeNull();
    expect(named(stiffBike(false, 'no-fault'))).toBe('no-fault');
    expect(named(stiffBike(true), 'too little data')).toBeNull();
  });

  it('sends the bike to service; a cause that is not named is watched', () => {
    expect(bikeState(stiffBike(true), []).word).toBe('service');
    expect(bikeState(stiffBike(false), []).word).toBe('watch');
  });

  it('is not said to be likely now where an adjustment made another fault of it, or may have cured it', () => {
    const { diagnosis, ...rest } = stiffBike(true);
    for (const setting of ['overdone', 'unsettled'] as const)
      expect(named({ ...rest, diagnosis: { ...diagnosis, now: { ...diagnosis.now, setting } } })).toBeNull();
  });
});
