/** Every cause that can be simulated, by the names the contract gives them. */
export const faultCauses = [
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

/** One of `faultCauses`. */
export type FaultCause = (typeof faultCauses)[number];
