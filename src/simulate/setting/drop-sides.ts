/** Where a chain that came off ends up: past an end of the cassette, or off the chainring. */
export const dropSides = ['past-largest', 'past-smallest', 'chainring'] as const;
/** One of them. */
export type DropSideTrue = (typeof dropSides)[number];
