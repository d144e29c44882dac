import { ENGINE_VERSION as numbered } from '../src/analyse.ts';

/** What the engine works out for the server. Its shapes, words and readers are imported where they are used. */
export { type AnalysedRide, analyseRide, concludeBike, rideFindings } from '../src/analyse.ts';
export { guessDrivetrain } from '../src/gear-trace/guess/guess-drivetrain.ts';
export { listRides, ownRides } from '../src/report/own-rides.ts';
export type { RideFindings } from '../src/report/ride-findings.ts';

/** The engine's version as the store keeps it. */
export const engineVersion = String(numbered);
