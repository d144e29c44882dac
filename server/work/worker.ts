/** What worker threads can be asked to do, under the names of `Tasks`. */
export { analyseKeptRide as analyse } from './analyse-kept-ride.ts';
export { compareRide as compare } from './compare-ride.ts';
export { concludeStoredBike as conclude, wholeStoredReport as wholeReport } from './conclude-stored-bike.ts';
export { guessFromFiles as guess } from './guess-from-files.ts';
export { intakeRide as intake } from './intake-ride.ts';
export { placeRides as place } from './place-rides.ts';
export { placelessRide as placeless } from './placeless-ride.ts';
