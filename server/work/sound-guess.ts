import { bikeSchema } from '../../src/drivetrain/bike.ts';
import type { DrivetrainGuess } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { guessDrivetrain } from '../engine.ts';

/** A guess as long as it is a bike that can be stored; one that no bike can be counts as none: the drivetrain is not known. */
export const soundGuess = (guess: DrivetrainGuess): DrivetrainGuess =>
  bikeSchema.safeParse(guess.bike).success ? guess : guessDrivetrain([]);
