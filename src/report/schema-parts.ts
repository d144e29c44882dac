import { z } from 'zod';

// The values that the report's shapes are made of.

/** A chance, 0 to 1. */
export const probability = z.number().min(0).max(1);
/** An ISO 8601 moment in UTC. */
export const time = z.iso.datetime();
/** Teeth of a cog or ring. */
export const toothCount = z.number().int();
/** Which way a shift goes: towards the spokes or towards the frame. */
export const direction = z.enum(['to-larger', 'to-smaller']);
/** How many there are. */
export const count = z.number().int().min(0);
/** See `Warning`. */
export const warning = z.object({ code: z.string(), message: z.string() });

/** Judged shifts by what became of them, and the rate of trouble with its 95 % interval; null where there is no judged shift to rate. */
export const tally = {
  shifts: count,
  late: count,
  missed: count,
  overshot: count,
  ghostShifts: count,
  troubleRate: probability.nullable(),
  low: probability,
  high: probability,
};

/** Judged shifts, and those of them that went wrong. */
export const troubleSince = z.object({ shifts: count, trouble: count });

/** The end of the cassette past which a chain can be lost. */
export const cassetteEnd = z.enum(['past-largest', 'past-smallest']);

/**
 * Shifts onto an end cog: commanded, those of which it is known how they went, those that reached it (absent in reports that an older engine
 * left in a store), late, missed or overshot ones, and chains lost past it.
 */
export const endCogCount = z.object({
  asked: count,
  shifts: count,
  reached: count.optional(),
  trouble: count,
  lost: count,
});
