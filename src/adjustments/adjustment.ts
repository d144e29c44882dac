import { z } from 'zod';
import { inUtc } from './in-utc.ts';

/** Parameters that are turned by an amount, with the unit each is counted in. Positive: see the contract's table in README. */
export const measuredParameters = {
  'cable-tension': 'clicks',
  'index-offset': 'steps',
  'low-limit': 'turns',
  'high-limit': 'turns',
  'pulley-gap': 'turns',
} as const;

/** Parts that are aligned or replaced: no amount, unit `done`; an amount of 0 where one was only looked at and found right. */
export const replacedParts = ['hanger', 'cable-and-housing', 'chain', 'cassette', 'wheel'] as const;

const toTheMinute = -1;
/** Written as a time with its zone, whether or not the calendar has it. */
const writtenAsTime = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const at = z
  .union([z.iso.datetime({ offset: true }), z.iso.datetime({ offset: true, precision: toTheMinute })], {
    error: ({ input }) =>
      typeof input === 'string' && writtenAsTime.test(input)
        ? 'there is no such day or hour'
        : 'must be an ISO 8601 time with its zone, for example 2026-04-12T18:30:00Z',
  })
  .overwrite(inUtc);
const note = z.string().max(2000).default('');

/**
 * One adjustment or repair, or, with an amount of 0, a look that found the part right and turned nothing. `at` comes out in UTC and with
 * seconds, whatever its offset was. `amount` is null for parts that are aligned or replaced, and `unit` may be left out for them.
 */
export const adjustmentSchema = z
  .object({
    at,
    parameter: z.enum([
      ...(Object.keys(measuredParameters) as (keyof typeof measuredParameters)[]),
      ...replacedParts,
    ] as const),
    amount: z.number().min(-100).max(100).nullable().default(null),
    unit: z.enum(['clicks', 'steps', 'turns', 'done']).default('done'),
    note,
  })
  .superRefine((row, context) => {
    const unit = (measuredParameters as Record<string, string>)[row.parameter] ?? 'done';
    if (row.unit !== unit)
      context.addIssue({
        code: 'custom',
        path: ['unit'],
        message: `${row.parameter} is counted in ${unit}`,
      });
    if (unit === 'done' && row.amount !== null && row.amount !== 0)
      context.addIssue({
        code: 'custom',
        path: ['amount'],
        message: `${row.parameter} is done or not: leave the amount empty, or write 0 where it was looked at and found right`,
      });
    if (unit !== 'done' && row.amount === null)
      context.addIssue({ code: 'custom', path: ['amount'], message: `${row.parameter} needs an amount in ${unit}` });
  });

/** A checked adjustment. */
export type Adjustment = z.infer<typeof adjustmentSchema>;
