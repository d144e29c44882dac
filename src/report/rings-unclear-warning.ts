import { ringsUnclearCode } from '../gear-trace/guess/unrecorded-rings.ts';
import type { RideReport } from './ride-report-schema.ts';

/** The ride with a warning that its shifts were judged without its rings being known. */
export const warnOfUnclearRings = <Ride extends RideReport>(ride: Ride): Ride => ({
  ...ride,
  warnings: [
    ...ride.warnings,
    {
      code: ringsUnclearCode,
      message:
        'On how many rings this ride was pedalled is not known: a change of ring may be listed as a late, missed or overshot shift, or as one that nobody asked for. Describe the bike, with all its rings.',
    },
  ],
});
