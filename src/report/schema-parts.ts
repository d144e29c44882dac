import { z } from 'zod';

/*
 * The values that the report's shapes are made of.
 */

export const probability = z.number().min(0).max(1);
export const time = z.iso.datetime();
export const toothCount = z.number().int();
export const direction = z.enum(['to-larger', 'to-smaller']);
export const count = z.number().int().min(0);
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

export const troubleSince = z.object({ shifts: count, trouble: count });

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
