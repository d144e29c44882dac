import { engineVersion as numbered } from '../src/analyse.ts';

/** The one place where the server touches the engine. */
export { analyseRide, concludeBike, type RideFindings, rideFindings } from '../src/analyse.ts';
export { guessDrivetrain } from '../src/gear-trace/guess-drivetrain.ts';

/** The engine's version as the store keeps it. */
export const engineVersion = String(numbered);
