import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';

/** Code of the note that stands with a bike whose drivetrain no ride showed. */
const unknownDrivetrain = 'bike-unknown';

/** True where the notes of a bike say that its drivetrain could not be worked out. */
export const drivetrainUnknown = (notes: readonly Pick<Warning, 'code'>[]): boolean =>
  notes.some(({ code }) => code === unknownDrivetrain);

/** What stands in where no drivetrain is known; no verdict is drawn from it, and a note from `unknownNote` goes with it. */
export const unknownBike: Bike = {
  name: 'unknown bike',
  chainrings: [32],
  cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
  actuation: 'cable',
};

/** The note that goes with the stand-in. @param why what there was to tell the drivetrain by, and why it does not */
export const unknownNote = (why: string): Warning => ({
  code: unknownDrivetrain,
  message: `${why}: the drivetrain is not known. Describe the bike to have its rides weighed.`,
});
