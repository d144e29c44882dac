import type { Cause } from '../../../src/diagnosis/causes.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { sampleReport } from '../sample-report.ts';

/**
 * The sample report of a bike on which one cause is all but sure and nothing can be turned. Neither its adjustments, its rate of
 * trouble nor a lost chain decides: there are none of them.
 */
export function quietReport(top: Cause, namesCause: boolean): Report {
  const report = sampleReport();
  const { diagnosis } = report;
  const rest = diagnosis.causes.filter(({ cause }) => cause !== top).map((one) => ({ ...one, probability: 0.002 }));
  return {
    ...report,
    adjustments: [],
    cogs: report.cogs.map((cog) => ({ ...cog, late: 0, missed: 0, overshot: 0 })),
    rides: report.rides.map((ride) => ({ ...ride, chainDrops: [] })),
    diagnosis: {
      ...diagnosis,
      causes: [{ cause: top, probability: 0.978, evidence: [] }, ...rest],
      suggestion: { ...diagnosis.suggestion, namesCause, parameter: 'none' },
    },
  };
}
