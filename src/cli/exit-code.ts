/** How the program ends, as the contract says. */
export const exitCode = {
  /** At least one ride was analysed. */
  done: 0,
  /** No ride could be analysed, or `--strict` and one could not. */
  noRide: 1,
  /** Wrong usage, a bad bike or adjustments file, or a result that could not be written. */
  usage: 2,
  /** A fault of the program itself: above what the contract uses, so that it is never taken for a verdict on the rides. */
  ownFault: 70,
} as const;

/** One of `exitCode`. */
export type ExitCode = (typeof exitCode)[keyof typeof exitCode];
