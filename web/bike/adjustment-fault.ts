import { parameterName } from '../../src/adjustments/parameter-words.ts';

/** The first thing that the form must refuse, in its reader's words; `message` is what the schema says of it. */
export function adjustmentFault(
  key: string,
  message: string,
  { parameter, amount, unit }: { readonly parameter: string; readonly amount: number | null; readonly unit: string },
): string {
  if (key === 'at') return 'Put in the day and the time when it was done.';
  if (key !== 'amount') return message;
  return amount === null
    ? `The ${parameterName(parameter)} needs an amount in ${unit}: put in how many.`
    : `Put in an amount of up to 100 ${unit}.`;
}
