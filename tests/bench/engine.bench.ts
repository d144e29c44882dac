import { analyseRide, rideFindings } from '../../src/analyse.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { madeBike } from '../gear-trace/made-ride.ts';
import { measure } from './measure.ts';

/** The engine by stage: trace and shifts take time as the ride is long, the verdict hardly more for more shifts. */
for (const hours of [1, 4]) {
  const [{ log }] = simulateRides({
    ...{ bike: madeBike, cause: 'cable-tension-low', severity: 'severe', seed: 1, terrain: 'mixed' },
    ...{ durationS: hours * 3600, formats: [] },
  });
  const findings = rideFindings(analyseRide(log, madeBike), madeBike);
  const ride = `${hours} h (${log.timeS.length} records, ${findings.events.shifts.length} shifts)`;
  measure(`gear trace of ${ride}`, () => traceGears(log, madeBike), 3);
  measure(`gear trace and shifts of ${ride}`, () => analyseRide(log, madeBike), 3);
  measure(`verdict on ${ride}`, () => diagnose({ bike: madeBike, rides: [findings], adjustments: [] }), 1);
}
