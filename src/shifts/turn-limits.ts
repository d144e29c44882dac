/** The contract's bounds in crank revolutions pedalled since the command: clean within the first, late within the second. */
export const CLEAN_WITHIN_REVS = 1.5;
export const LATE_WITHIN_REVS = 5;
/** An unasked shift has no command in so many seconds before it. */
export const NO_COMMAND_S = 5;
