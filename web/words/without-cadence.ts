/** Why nothing of a drivetrain was measured where no ride holds a cadence. */
export const NO_COG_SEEN = 'Without cadence no cog can be seen';
