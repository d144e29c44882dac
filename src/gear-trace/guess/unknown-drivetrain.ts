import type { Warning } from '../../errors/warning.ts';

/** Code of the note that stands with a bike whose drivetrain no ride showed. */
export const unknownDrivetrain = 'bike-unknown';

/** True where the notes of a bike say that its drivetrain could not be worked out. */
export const drivetrainUnknown = (notes: readonly Pick<Warning, 'code'>[]): boolean =>
  notes.some(({ code }) => code === unknownDrivetrain);
