import { moreGears, otherCogs } from '../gear-trace/belonging/another-bike.ts';
import { ridesApartCode } from '../gear-trace/belonging/rides-apart.ts';
import { recordedTeethDiffer, teethDiffer } from '../gear-trace/disagreement/gear-warnings.ts';
import { otherSteps } from '../gear-trace/disagreement/other-steps.ts';
import { rolloutDiffers } from '../gear-trace/disagreement/rollout-warning.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What is noted of a ride by the bike that it was read with: of one that is likely no bike's it says nothing. */
const byTheBike: readonly string[] = [
  moreGears,
  otherCogs,
  otherSteps,
  recordedTeethDiffer,
  rolloutDiffers,
  teethDiffer,
];

/** The ride with a warning that it was read with a drivetrain that is likely no bike's, in place of what was noted by that. */
export const warnOfRidesApart = <Ride extends RideReport>(ride: Ride): Ride => ({
  ...ride,
  warnings: [
    {
      code: ridesApartCode,
      message:
        'This ride was read with a drivetrain guessed from rides that do not look like those of one bike: with wrong teeth sound shifts look late, missed or overshot. They are listed but not weighed.',
    },
    ...ride.warnings.filter(({ code }) => !byTheBike.includes(code)),
  ],
});
