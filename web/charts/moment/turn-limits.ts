/** A shift done within so many crank revolutions of pedalling is clean (as the report's contract says). */
export const cleanWithinRevs = 1.5;

/** Within so many it is late, beyond it is missed. */
export const lateWithinRevs = 5;
