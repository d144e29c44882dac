/** What was done last, within a sentence: several things between the same shifts have no shares that could be told apart. */
export const lastDone = (adjustments: readonly { readonly sharedPeriod: boolean }[]): string =>
  adjustments.at(-1)?.sharedPeriod ? 'what was done last, all together,' : 'the last adjustment';
