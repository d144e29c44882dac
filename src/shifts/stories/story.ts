/**
 * What a shift can have done: come to the commanded cog within 1.5 turns (as most do, or as on a cog where clean shifts are slow), within
 * 5 or later, never come there, gone past it.
 */
export const WAYS = ['clean', 'slow', 'late', 'veryLate', 'never', 'overshot'] as const;
/** One of `WAYS`. */
export type Way = (typeof WAYS)[number];

/** Names of the stories; what each is stands beside the function that tells it. */
export type StoryName =
  | 'straight'
  | 'straight-slow'
  | 'straight-late'
  | 'straight-very-late'
  | 'last-cog-late'
  | 'last-cog-very-late'
  | 'stayed'
  | 'stopped-short'
  | 'went-beyond'
  | 'ran-on';

/** One story of where the chain went and when, in one reading of a shift's surroundings. */
export interface Story {
  readonly name: StoryName;
  /** What the shift has done if the story is true. */
  readonly way: Way;
  /** Cog on which the chain ends. */
  readonly finalCog: number;
  /** Of the shifts that went this way, the share that this story tells. */
  readonly share: number;
  /** Chance of each number of crank turns on the grid of `turn-chances.ts`, if the story is true; sums to 1. */
  readonly turnChances: Float64Array;
  /**
   * Log likelihood of the records about the shift by moment of arrival: `[a]` belongs to `FIRST_ARRIVAL_S + a * ARRIVAL_STEP_S`, counted
   * from the burst's last command without the spells in which the cranks stood. Stories of the same path share one array.
   */
  readonly byArrival: Float64Array;
}
