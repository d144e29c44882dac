import { analyseKeptRide } from './analyse-kept-ride.ts';
import { compareRide } from './compare-ride.ts';
import { concludeStoredBike, wholeStoredReport } from './conclude-stored-bike.ts';
import { guessFromFiles } from './guess-from-files.ts';
import { intakeRide } from './intake-ride.ts';
import { placeRides } from './place-rides.ts';
import { placelessRide } from './placeless-ride.ts';
import { takingUp } from './taken-up.ts';

// What worker threads can be asked to do, under the names of `Tasks`.
export const analyse = takingUp(analyseKeptRide);
export const compare = takingUp(compareRide);
export const conclude = takingUp(concludeStoredBike);
export const guess = takingUp(guessFromFiles);
export const intake = takingUp(intakeRide);
export const place = takingUp(placeRides);
export const placeless = takingUp(placelessRide);
export const wholeReport = takingUp(wholeStoredReport);
