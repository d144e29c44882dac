/** A shift that is done within so many crank revolutions pedalled since the command is clean (contract). */
export const CLEAN_WITHIN_REVS = 1.5;
/** One that is done later, but within so many, is late (contract). */
export const LATE_WITHIN_REVS = 5;
/** An unasked shift has no command in so many seconds before it. */
export const NO_COMMAND_S = 5;
