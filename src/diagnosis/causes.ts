/** Every cause the diagnosis weighs, in the contract's order. */
export const causes = [
  'no-fault',
  'cable-tension-low',
  'cable-tension-high',
  'low-limit-tight',
  'low-limit-loose',
  'high-limit-tight',
  'high-limit-loose',
  'pulley-gap-small',
  'pulley-gap-large',
  'hanger-bent',
  'cable-friction',
  'worn-drivetrain',
] as const;

/** One of `causes`. */
export type Cause = (typeof causes)[number];

/** Causes that are set right by turning the barrel adjuster, or the electronic offset. */
export const indexingCauses: readonly Cause[] = ['cable-tension-low', 'cable-tension-high'];

/** Whether a cause is one of those. */
export const isIndexing = (cause: Cause): boolean => indexingCauses.includes(cause);
