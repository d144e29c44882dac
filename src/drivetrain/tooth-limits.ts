/** Teeth that a cog can have, smaller and larger ones than any sold for bicycles included. */
export const COG_TEETH = { least: 7, most: 60 } as const;
/** Teeth that a chainring can have, likewise. */
export const RING_TEETH = { least: 16, most: 70 } as const;
/** How many cogs a cassette can have. */
export const COGS = { least: 5, most: 13 } as const;
/** How many rings a crank can have. */
export const RINGS = { least: 1, most: 3 } as const;
